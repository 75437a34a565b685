// Tells one key from a burst. A barcode scanner types faster than any hand; what it types must never become a grade. So each key is
// held back until nothing followed it for a moment, and a run of keys that came too fast for a hand is taken as a whole.

/** Two keys nearer together than this, in ms, were not pressed one after the other by a hand. */
export const tooFastFor = 35;

/** How long a key is held back, in ms; and how far apart the characters of a run that has begun may be. */
export const heldFor = 60;

/** The fewest characters that are taken for a scan. */
export const fewestScanned = 3;

/** Whether a run is over once it is a given time, if no key had come. */
export function isOver(run, at) {
    return at - run.lastAt >= heldFor;
}

/** Whether a key that comes now belongs to the run. */
export function belongs(run, at) {
    return at - run.lastAt < (run.keys.length > 1 ? heldFor : tooFastFor);
}

/**
 * What a run was.
 * @returns {{is: "key"|"doubled"|"scan"|"clash", key?: object, text?: string}}
 *   one key; one key whose contact bounced; a scan; or two keys at once.
 */
export function classify(run) {
    const [first, ...others] = run.keys;
    if (others.length === 0) {
        return { is: "key", key: first };
    }

    if (others.every((key) => key.code === first.code)) {
        return { is: "doubled", key: first };
    }

    const ended = run.keys.findIndex((key) => key.key === "Enter");
    const typed = (ended < 0 ? run.keys : run.keys.slice(0, ended)).filter((key) => [...key.key].length === 1);
    return typed.length >= fewestScanned
        ? { is: "scan", text: typed.map((key) => key.key).join("").trim() }
        : { is: "clash" };
}
