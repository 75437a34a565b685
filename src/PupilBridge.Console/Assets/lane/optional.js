// The optional question, such as the consensual response. Only a key of its own opens it, so that a grade never lands in a question
// that nobody opened; and whatever is due goes before it.

import { refuse } from "./entering.js";

/** A judgement sooner than this after a due question took the place of an open optional one, in ms, may have been meant for that one. */
export const displacedFor = 700;

const questions = new Set(["grade", "shape", "swing"]);

/** Whether a question waits that is not optional. */
export function isDue(prompt) {
    return questions.has(prompt.accepts) && prompt.isOptional !== true;
}

/** The optional questions of an exam that this page has not answered yet, in their order. */
export function offeredOn(exam, answered = {}) {
    return (exam?.optional ?? []).filter((prompt) => !answered[prompt.key]);
}

/** The optional question that was opened; null for none. */
export function openedOf(state) {
    return (state.board?.exam?.optional ?? []).find((prompt) => prompt.key === state.opened) ?? null;
}

/** Whether an optional question that was opened stays so on another board. */
export function staysOpen(opened, exam) {
    return opened !== null && Boolean(exam) && exam.status === "open" && !isDue(exam.prompt)
        && (exam.optional ?? []).some((prompt) => prompt.key === opened);
}

/** Whether a key that came so soon may have been meant for the optional question that stood there before. */
export function isDisplaced(state, key) {
    return key.question?.isOptional !== true && key.at >= state.displacedAt && key.at - state.displacedAt < displacedFor;
}

/** The key for it opens the first optional question, then the next, and after the last one none. */
export function openNext(state, key, exam, effects) {
    if (key.question?.exam !== exam.exam) {
        return refuse(state, effects, "examChanged");
    }

    if (isDue(exam.prompt)) {
        return refuse(state, effects, "dueFirst");
    }

    const offered = offeredOn(exam, state.answered);
    if (offered.length === 0) {
        return refuse(state, effects, "nothingOptional");
    }

    const next = offered[offered.findIndex((prompt) => prompt.key === state.opened) + 1];
    if (!next) {
        return close(state, key.at);
    }

    effects.push({ effect: "tone", tone: "opened" }, { effect: "ask", words: next.words });
    return { ...state, opened: next.key, questionSince: key.at };
}

/** Puts it away, unanswered or answered. */
export function close(state, at) {
    return { ...state, opened: null, questionSince: at };
}
