// Reads server-sent events out of text as it comes. It is read by hand, because the browser's own reader hides the heartbeat and the
// reason why a connection was refused, and an examiner must be told of both.

/** The state before anything came. */
export function begin() {
    return { rest: "", event: "", data: [], id: null };
}

/**
 * Takes the next piece of text.
 * @returns {{state: object, events: {event: string, data: string, id: string|null}[], beats: number}}
 *   what is complete now, and how many lines were only a sign of life.
 */
export function take(state, text) {
    const lines = (state.rest + text).split(/\r\n|\n|\r(?!$)/);
    let next = { ...state, rest: lines.pop() };
    const events = [];
    let beats = 0;
    for (const line of lines) {
        if (line === "") {
            if (next.data.length > 0) {
                events.push({ event: next.event || "message", data: next.data.join("\n"), id: next.id });
            }

            next = { ...next, event: "", data: [] };
        } else if (line.startsWith(":")) {
            beats++;
        } else {
            next = field(next, line);
        }
    }

    return { state: next, events, beats };
}

function field(state, line) {
    const colon = line.indexOf(":");
    const name = colon < 0 ? line : line.slice(0, colon);
    const value = colon < 0 ? "" : line.slice(colon + 1).replace(/^ /, "");
    switch (name) {
        case "event":
            return { ...state, event: value };
        case "data":
            return { ...state, data: [...state.data, value] };
        case "id":
            return { ...state, id: value };
        default:
            return state;
    }
}
