// What a key answers to a question: the judgements it makes, in the words in which they are typed, or null where it does not answer.

const eyes = ["OD", "OS"];

/** The actions that answer each kind of question, in the order in which they are shown. */
export const answering = Object.freeze({
    grade: Object.freeze(["grade0", "grade1", "grade2", "grade3", "grade4", "couldNotSee"]),
    shape: Object.freeze(["both", "right", "left", "neither", "couldNotSee"]),
    swing: Object.freeze(["both", "right", "left", "couldNotSee"]),
    light: Object.freeze(["bright", "dim"]),
    ready: Object.freeze(["enter"]),
    none: Object.freeze([]),
});

/** The actions that judge, and so need a question. */
export const judging = Object.freeze(new Set([...answering.grade, ...answering.shape]));

/**
 * The judgements that an action makes of a question.
 * @param prompt The question as it stood on the screen.
 * @param action What the key means.
 * @returns {string[] | null} one judgement for each eye that it is about; null if the action does not answer this question.
 */
export function judgementsOf(prompt, action) {
    switch (prompt.accepts) {
        case "grade":
            return gradeOf(action) === null ? null : forEachEye(prompt.judges, gradeOf(action));
        case "shape":
            return shapes(prompt, action);
        case "swing":
            return swing(prompt.judges, action);
        default:
            return null;
    }
}

/** The actions that answer a question: of those that answer its kind, the ones that fit its eye. */
export function actionsFor(prompt) {
    return (answering[prompt.accepts] ?? []).filter(
        (action) => !judging.has(action) || judgementsOf(prompt, action) !== null);
}

/** The grade at the end of a judgement, 0 to 4; null if it ends otherwise. */
export function gradeIn(judgement) {
    const last = judgement.split(" ").at(-1);
    return /^[0-4](\.5)?$/.test(last) ? Number(last) : null;
}

/** The same judgement with another grade. */
export function withGrade(judgement, grade) {
    return [...judgement.split(" ").slice(0, -1), String(grade)].join(" ");
}

function gradeOf(action) {
    return action === "couldNotSee" ? "could-not-see" : /^grade[0-4]$/.test(action) ? action.slice(5) : null;
}

/** One entry judges one eye, so a question about both is answered by two. */
function forEachEye(judges, last) {
    return / both$/.test(judges)
        ? eyes.map((eye) => `${judges.replace(/both$/, eye)} ${last}`)
        : [`${judges} ${last}`];
}

/** "7" says that OD is the one that is not round, and so that OS is round; of one eye alone it says that this one is not. */
function shapes(prompt, action) {
    const shape = (right, left) => {
        const by = { OD: right, OS: left };
        return (prompt.eye ? [prompt.eye] : eyes).map((eye) => `shape ${eye} ${by[eye]}`);
    };
    switch (action) {
        case "both":
            return shape("round", "round");
        case "right":
            return prompt.eye === "OS" ? null : shape("not-round", "round");
        case "left":
            return prompt.eye === "OD" ? null : shape("round", "not-round");
        case "neither":
            return prompt.eye ? null : shape("not-round", "not-round");
        case "couldNotSee":
            return shape("could-not-see", "could-not-see");
        default:
            return null;
    }
}

function swing(judges, action) {
    const outcomes = { both: "alike", right: "worse OD", left: "worse OS", couldNotSee: "could-not-see" };
    return outcomes[action] ? [`${judges} ${outcomes[action]}`] : null;
}
