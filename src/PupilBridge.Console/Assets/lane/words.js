// The words of the page, as the server wrote them into it out of its resource files.

/** Reads the words and what else the server wrote into the page. */
export function readPage(doc) {
    const read = (id) => JSON.parse(doc.getElementById(id).textContent);
    return { words: read("words"), lane: read("lane-data") };
}

/** Gives the text of a key with values put in their places, {0} and on. */
export function speaker(words) {
    return (key, ...values) => (words[key] ?? `[${key}]`).replace(/\{(\d)\}/g, (_, index) => String(values[index] ?? ""));
}
