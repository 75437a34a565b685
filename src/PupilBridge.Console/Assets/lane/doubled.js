// A finger that bounces, or taps twice out of habit, must not answer two questions. But OD 3 and then OS 3 are two answers.

/** The same key again within this time, in ms, counts once. */
export const doubledFor = 350;

/** For the next question the same key counts sooner, once that question has stood on the screen this long, in ms. */
export const seenFor = 100;

const forQuestions = new Set(["grade0", "grade1", "grade2", "grade3", "grade4", "both", "right", "left", "neither", "couldNotSee"]);

/**
 * The rule: the same key within 350 ms is a doubled one, unless all of this holds: it answers questions, another question stood on
 * the screen when it went down, and that question had stood there for 100 ms. That the key had gone up in between is a matter of
 * course: a key that did not go up is a held one and never comes here.
 * @param last When the key went down before: { at, question }.
 * @param key The key that went down now: { at, action, question, since }.
 */
export function isDoubled(last, key) {
    if (key.at - last.at >= doubledFor) {
        return false;
    }

    const isForNext = forQuestions.has(key.action) && key.question !== null && key.question.key !== last.question
        && key.at - key.since >= seenFor;
    return !isForNext;
}
