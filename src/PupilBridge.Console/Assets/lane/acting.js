// What one key does, once it is sure that it was one key pressed once.

import { gradeIn, judgementsOf, judging, withGrade } from "./answers.js";
import { ownOn, put, refuse } from "./entering.js";
import { confirmedAfter, enter } from "./ready.js";
import { close, isDisplaced, openNext } from "./optional.js";
import { confirmScan } from "./scans.js";
import { forget, isAtWork } from "./standing.js";
import { undo } from "./undoing.js";

/** Acts on one key. */
export function act(state, key, input, effects) {
    const before = state;
    if (key.action !== "enter") {
        state = forget(state, effects);
    }

    if (key.action === null) {
        return refuse(state, effects, "keyMeansNothing", [key.key]);
    }

    if (judging.has(key.action)) {
        return judge(state, key, input, effects);
    }

    switch (key.action) {
        case "half":
            return half(state, key, input, effects);
        case "undo":
            return undo(state, key, input, effects);
        case "enter":
            return before.scan ? confirm(before, key, effects) : enter(before, key, input, effects);
        case "bright":
        case "dim":
            return say(state, key, input, effects, "roomLight", { light: key.action });
        case "far":
        case "near":
            return say(state, key, input, effects, "fixation", { fixation: key.action });
        case "optional":
            return optional(state, key, effects);
        case "dismiss":
            if (state.opened !== null) {
                return close(state, key.at);
            }

            effects.push({ effect: "open", what: key.action });
            return state;
        default:
            effects.push({ effect: "open", what: key.action });
            return state;
    }
}

function judge(state, key, input, effects) {
    const question = key.question;
    if (question === null) {
        return refuse(state, effects, "noExam");
    }

    const exam = state.board?.exam;
    if (exam?.exam === question.exam && !isAtWork(exam)) {
        return refuse(state, effects, "examIsOver");
    }

    const judgements = judgementsOf(question, key.action);
    if (judgements === null) {
        const isAsked = question.accepts !== "none" && question.accepts !== "ready";
        return refuse(state, effects, isAsked ? "keyAnswersOther" : "nothingIsAsked");
    }

    if (state.answered[question.key]) {
        return refuse(state, effects, "isAnswered");
    }

    if (isDisplaced(state, key)) {
        return refuse(state, effects, "questionChanged");
    }

    const entries = judgements.map((judgement, index) => ({
        entry: "judgement",
        entryId: input.ids[index],
        exam: question.exam,
        judgement,
        stepSeen: question.step,
        stimulusSeen: question.stimulus,
    }));
    const next = put(state, key, effects, entries, { is: "judgement", judgement: judgements[0], question });
    const answered = { ...next.answered, [question.key]: { ids: next.own.at(-1).ids } };
    return state.opened === question.key ? { ...close(next, key.at), answered } : { ...next, answered };
}

function optional(state, key, effects) {
    const exam = state.board?.exam;
    if (!exam || !isAtWork(exam)) {
        return refuse(state, effects, exam ? "examIsOver" : "noExam");
    }

    return openNext(state, key, exam, effects);
}

/** A half step more on the last grade, as long as nothing was judged after it. */
function half(state, key, input, effects) {
    const exam = state.board?.exam;
    if (!exam || !isAtWork(exam)) {
        return refuse(state, effects, exam ? "examIsOver" : "noExam");
    }

    const last = lastJudged(state, exam);
    const grade = last && !last.isPair ? gradeIn(last.judgement) : null;
    if (grade === null) {
        return refuse(state, effects, "noGradeForHalf");
    }

    if (grade > 3.5) {
        return refuse(state, effects, "noHalfAboveFour");
    }

    const judgement = withGrade(last.judgement, grade + 0.5);
    const entry = {
        entry: "judgement",
        entryId: input.ids[0],
        exam: exam.exam,
        judgement,
        stepSeen: last.question?.step ?? null,
        stimulusSeen: last.question?.stimulus ?? null,
    };
    return put(state, key, effects, [entry], { is: "judgement", judgement, question: last.question });
}

function lastJudged(state, exam) {
    const own = ownOn(state, exam).filter((one) => one.is === "judgement").at(-1);
    return own ? { judgement: own.judgement, question: own.question, isPair: own.ids.length > 1 } : null;
}

function say(state, key, input, effects, entry, what) {
    const exam = key.question?.exam;
    if (exam === undefined) {
        return refuse(state, effects, "noExam");
    }

    return put(state, key, effects, [{ entry, entryId: input.ids[0], exam, ...what }], { is: entry });
}

function confirm(state, key, effects) {
    return key.at - state.scan.at < confirmedAfter ? refuse(state, effects, "enterTooSoon") : confirmScan(state, effects);
}
