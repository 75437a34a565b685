// Which keys mean what. A key is named by a token: its place on the keyboard ("Numpad3", as KeyboardEvent.code says it, so that it
// works with NumLock on or off), or "=" and the character it types ("=-", so that it is found on every layout).

/** The actions in the order in which they are shown, with the keys they have unless the clinic binds others. */
export const defaults = Object.freeze([
    ...[0, 1, 2, 3, 4].map((grade) => bind(`grade${grade}`, `Numpad${grade}`, `Digit${grade}`)),
    bind("half", "NumpadDecimal", "=.", "=,"),
    bind("both", "Numpad8", "Digit8"),
    bind("right", "Numpad7", "Digit7"),
    bind("left", "Numpad9", "Digit9"),
    bind("neither", "Numpad6", "Digit6"),
    bind("couldNotSee", "Numpad5", "Digit5"),
    bind("undo", "NumpadSubtract", "=-"),
    bind("enter", "NumpadEnter", "Enter"),
    bind("bright", "NumpadMultiply", "=*"),
    bind("dim", "NumpadDivide", "=/"),
    bind("patient", "NumpadAdd", "=+"),
    bind("optional", "=c"),
    bind("eyes", "=e"),
    bind("far", "=f"),
    bind("near", "=n"),
    bind("examiner", "F2"),
    bind("dismiss", "Escape", "Backspace"),
    bind("mute", "=m"),
    bind("switchOff", "F8"),
]);

/** Keys that the browser and the reader of the screen need, and that therefore can mean nothing here. */
const kept = new Set(["Tab", "F5", "F11", "F12", "ShiftLeft", "ShiftRight", "ControlLeft", "ControlRight", "AltLeft", "AltRight",
    "MetaLeft", "MetaRight", "CapsLock", "NumLock", "ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight", "Unidentified", ""]);

function bind(action, ...tokens) {
    return Object.freeze({ action, tokens: Object.freeze(tokens) });
}

/** The bindings as { action: [token] }, taken from what was stored; what is missing or is not understood has its default. */
export function readBindings(stored) {
    const read = {};
    for (const { action, tokens } of defaults) {
        const own = stored && stored[action];
        read[action] = isTokens(own) ? [...own] : [...tokens];
    }
    return read;
}

/** What a key means: an action, or null. Places go before characters; a place counts only without shift. */
export function actionOf(bindings, { code, key, shift }) {
    const byPlace = shift ? null : actionWith(bindings, code);
    return byPlace ?? (isCharacter(key) ? actionWith(bindings, `=${plain(key, shift)}`) : null);
}

/** The token under which a key that was pressed is bound. */
export function tokenOf({ code }) {
    return code;
}

/**
 * Adds a key to an action.
 * @returns {{bindings: object, problem: null | {word: string, action?: string}}} the bindings unchanged where there is a problem.
 */
export function addKey(bindings, action, pressed) {
    const token = tokenOf(pressed);
    if (kept.has(token)) {
        return { bindings, problem: { word: "keyIsKept" } };
    }

    const holder = actionOf(bindings, { ...pressed, shift: false });
    if (holder !== null) {
        return { bindings, problem: { word: holder === action ? "keyIsBoundHere" : "keyIsTaken", action: holder } };
    }

    return { bindings: { ...bindings, [action]: [...bindings[action], token] }, problem: null };
}

/** Takes a key away from an action. An action may be left without a key, except Enter and undo. */
export function removeKey(bindings, action, token) {
    const rest = bindings[action].filter((one) => one !== token);
    if (rest.length === 0 && (action === "enter" || action === "undo")) {
        return { bindings, problem: { word: "keyIsNeeded", action } };
    }

    return { bindings: { ...bindings, [action]: rest }, problem: null };
}

/** How a key is called on the page: its character where it has one, else its place. */
export function labelOf(token) {
    if (token.startsWith("=")) {
        return token.slice(1).toUpperCase();
    }

    const signs = { NumpadDecimal: ".", NumpadSubtract: "-", NumpadAdd: "+", NumpadMultiply: "*", NumpadDivide: "/",
        NumpadEnter: "Enter", Escape: "Esc" };
    return signs[token] ?? token.replace(/^(Numpad|Digit|Key)(?=.$)/, "");
}

/** The labels of an action's keys, each once. */
export function labelsOf(bindings, action) {
    return [...new Set((bindings[action] ?? []).map(labelOf))];
}

/** Whether a key types one character. */
export function isCharacter(key) {
    return typeof key === "string" && [...key].length === 1;
}

function actionWith(bindings, token) {
    for (const { action } of defaults) {
        if (bindings[action]?.includes(token)) {
            return action;
        }
    }

    return null;
}

/** A letter typed with the capitals lock on means the same; one typed with shift does not. */
function plain(key, shift) {
    return shift ? key : key.toLowerCase();
}

function isTokens(value) {
    return Array.isArray(value) && value.every((one) => typeof one === "string" && one.length > 0 && one.length < 40);
}
