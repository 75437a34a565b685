// What this browser keeps of a clinic's choices: keys and sound.

import { readBindings } from "./bindings.js";

const keysKey = "pupilbridge.lane.keys";

/** The bindings of this browser. */
export function loadBindings(store) {
    try {
        return readBindings(JSON.parse(store.getItem(keysKey)));
    } catch {
        return readBindings(null);
    }
}

/** Keeps the bindings; null goes back to the defaults. */
export function saveBindings(store, bindings) {
    if (bindings === null) {
        store.removeItem(keysKey);
    } else {
        store.setItem(keysKey, JSON.stringify(bindings));
    }
}

/** Fresh ids for entries: 32 hexadecimal digits each, drawn at random. */
export function freshIds(count) {
    return Array.from({ length: count }, () =>
        [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, "0")).join(""));
}
