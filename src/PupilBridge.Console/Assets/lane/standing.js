// What stands on the screen as the keys see it: the exam, its question, and what has been answered but is not on the board yet.

import { isDue, openedOf, staysOpen } from "./optional.js";

/** An answer is recorded, and yet its question is still there after this time, in ms: it did not count, so it may be answered anew. */
const stillAskedAfter = 1500;

/** The question on the screen, an optional one that was opened or the due one, with its exam; null where there is no exam. */
export function questionOf(state) {
    const exam = state.board?.exam;
    return exam ? { ...(openedOf(state) ?? exam.prompt), exam: exam.exam } : null;
}

/** Whether an exam takes what people judge. */
export function isAtWork(exam) {
    return exam.status === "open";
}

/** A new board came: nothing that was pressed before changes its meaning by it. */
export function boardCame(state, { board, at }, effects) {
    const before = state.board?.exam;
    const now = board.exam;
    let next = { ...state, board };
    if (before?.exam !== now?.exam || before?.prompt.key !== now?.prompt.key) {
        next.questionSince = at;
    }

    if (state.opened !== null && !staysOpen(state.opened, now)) {
        next = { ...next, opened: null, questionSince: at, displacedAt: now && isDue(now.prompt) ? at : next.displacedAt };
    }

    if (next.ask && next.ask.sign !== signOf(now)) {
        next.ask = null;
        effects.push({ effect: "clear", what: "ask" });
    }

    if (next.scan && next.scan.sign !== scanSignOf(now)) {
        next.scan = null;
        effects.push({ effect: "clear", what: "scan" });
    }

    if (before?.exam !== now?.exam) {
        next = { ...next, own: next.own.filter((one) => one.exam === now?.exam), answered: {}, withdrawn: [] };
    }

    return next;
}

/** What must stay the same between the first Enter, which names what is missing, and the second, which accepts it. */
export function signOf(exam) {
    return exam ? JSON.stringify([exam.exam, exam.status, exam.patient?.patient ?? null, exam.missing, exam.missingSteps]) : "";
}

/** What must stay the same between a scan and the Enter that confirms it. */
export function scanSignOf(exam) {
    return exam ? `${exam.exam} ${exam.status} ${exam.patient?.patient ?? ""}` : "";
}

/** Lets go of what has waited long enough. */
export function drop(state, at, effects) {
    const next = { ...state };
    for (const what of ["ask", "scan"]) {
        if (next[what] && at >= next[what].until) {
            next[what] = null;
            effects.push({ effect: "clear", what });
        }
    }

    const kept = Object.entries(next.answered).filter(([, answer]) => !(answer.freeAt <= at));
    next.answered = Object.fromEntries(kept);
    return next;
}

/** The time from which a question that is still asked may be answered again. */
export function freeAgainAt(at) {
    return at + stillAskedAfter;
}

/** Another key came: what waited for Enter waits no longer. */
export function forget(state, effects) {
    for (const what of ["ask", "scan"]) {
        if (state[what]) {
            effects.push({ effect: "clear", what });
        }
    }

    return { ...state, ask: null, scan: null };
}
