// What all dialogs of the lane have in common. While one is open, no key is a grade.

import { at, show, text } from "./dom.js";

/** Whether a dialog is open. */
export function isDialogOpen() {
    return document.querySelector("dialog[open]") !== null;
}

/** Opens a dialog with empty problem line; gives false if another one is open. */
export function openDialog(id) {
    if (isDialogOpen()) {
        return false;
    }

    problem(id, "");
    at(id).showModal();
    return true;
}

/** Closes a dialog and gives the keys back to the lane. */
export function closeDialog(id) {
    at(id).close();
    document.activeElement?.blur?.();
}

/** Says what is wrong in a dialog; empty for nothing. */
export function problem(id, words) {
    const line = at(`${id}-problem`);
    text(line, words);
    show(line, words !== "");
}

/** The words of a refused request. */
export function reasonOf({ body }, otherwise) {
    return [body?.detail ?? body?.title ?? body?.reason ?? otherwise, body?.nextStep ?? ""].join(" ").trim();
}
