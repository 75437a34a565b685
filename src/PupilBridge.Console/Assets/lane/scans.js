// A scanned patient number. It only ever chooses a patient, and only after the examiner confirmed it with Enter.

import { isAtWork, scanSignOf } from "./standing.js";

/** How long a scan waits for its Enter, in ms. */
const scanWaits = 10_000;

/** A scan came. */
export function scanned(state, text, at, effects) {
    const exam = state.board?.exam ?? null;
    const isOpen = exam !== null && isAtWork(exam);
    if (isOpen && exam.patient?.patient === text) {
        effects.push({ effect: "say", word: "scannedSame", args: [text], kind: "info" });
        return { ...state, scan: null };
    }

    const attaches = isOpen && !exam.patient;
    const word = attaches ? "scannedAttach" : isOpen ? "scannedNext" : "scannedOpen";
    effects.push(
        { effect: "tone", tone: "due" },
        { effect: "say", word, args: [text, exam?.patient?.patient ?? ""], kind: "asks", about: "scan" });
    return { ...state, scan: { text, exam: attaches ? exam.exam : null, sign: scanSignOf(exam), at, until: at + scanWaits } };
}

/** Enter after a scan. */
export function confirmScan(state, effects) {
    const { text, exam } = state.scan;
    effects.push({ effect: "clear", what: "scan" }, { effect: "choosePatient", patient: text, exam });
    return { ...state, scan: null };
}
