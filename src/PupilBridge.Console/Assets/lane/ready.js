// Enter never fills anything in. The first one names what is missing; a second one, after the words could be heard and while nothing
// has changed, accepts that it stays not examined.

import { refuse } from "./entering.js";
import { isAtWork, signOf } from "./standing.js";

/** An Enter sooner than this after what it would confirm, in ms, is a doubled or hasty one. */
export const confirmedAfter = 400;

/** How long the second Enter may take, in ms. */
const askWaits = 10_000;

/** Enter, where no scan waits for it. */
export function enter(state, key, input, effects) {
    const exam = state.board?.exam;
    if (!exam) {
        return refuse(state, effects, "noExamForReady");
    }

    if (!isAtWork(exam)) {
        return refuse(state, effects, "examIsOver");
    }

    if (state.waiting > 0) {
        return refuse(state, effects, "notRecordedYet");
    }

    if (state.ask) {
        return second(state, key, exam, input, effects);
    }

    if (key.question?.exam !== exam.exam) {
        return refuse(state, effects, "examChanged");
    }

    if (exam.missing.length === 0) {
        return makeReady(state, key, effects, [ready(input.ids[0], exam)]);
    }

    effects.push(
        { effect: "tone", tone: "refused" },
        { effect: "say", word: "isMissing", list: [...exam.missing], kind: "asks", about: "ask" });
    return { ...state, ask: { sign: signOf(exam), at: key.at, until: key.at + askWaits } };
}

function second(state, key, exam, input, effects) {
    if (key.at - state.ask.at < confirmedAfter) {
        return refuse(state, effects, "enterTooSoon");
    }

    effects.push({ effect: "clear", what: "ask" });
    const accepted = exam.missingSteps.length === 0 ? [] : [{
        entry: "notExamined",
        entryId: input.ids[1],
        exam: exam.exam,
        steps: [...exam.missingSteps],
    }];
    return makeReady({ ...state, ask: null }, key, effects, [...accepted, ready(input.ids[0], exam)]);
}

function ready(entryId, exam) {
    return { entry: "makeReady", entryId, exam: exam.exam };
}

function makeReady(state, key, effects, entries) {
    // If it is refused that something stays not examined, the exam is not made ready either.
    entries.forEach((entry, index) => effects.push(
        { effect: "enter", typedAt: key.at, entry, after: entries[index - 1]?.entryId ?? null }));

    return state;
}
