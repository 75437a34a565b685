// The keys of the lane as one pure step: a state and an input give the next state and what is to be done. It knows no clock, no
// page and no network: every input brings its time in ms, and the ids that new entries would get.

import { actionOf, isCharacter, readBindings } from "./bindings.js";
import { belongs, classify, heldFor, isOver } from "./burst.js";
import { isDoubled } from "./doubled.js";
import { act } from "./acting.js";
import { outcomeCame } from "./outcomes.js";
import { boardCame, drop, forget, questionOf } from "./standing.js";
import { scanned } from "./scans.js";

/** A key whose release was never told is taken for released after this time without a sign of it, in ms. */
const forgottenAfter = 2000;

/** The state before anything happened. */
export function begin(who = "", bindings = readBindings(null)) {
    return {
        who,
        bindings,
        board: null,
        questionSince: 0,
        opened: null,
        displacedAt: -Infinity,
        run: null,
        down: {},
        last: {},
        answered: {},
        own: [],
        withdrawn: [],
        ask: null,
        scan: null,
        waiting: 0,
    };
}

/**
 * One step.
 * @param state What {@link begin} or the step before gave.
 * @param input Always { at, ids }: the time in ms and fresh ids of at least two entries; and one of
 *   { type: "down", code, key, shift, ctrl, alt, meta, repeat, inText }, { type: "up", code }, { type: "board", board },
 *   { type: "time" }, { type: "outcome", entryId, entry, outcome, notice }, { type: "blur" }, { type: "focus" },
 *   { type: "bindings", bindings }, { type: "who", who }, { type: "waiting", count }.
 * @returns {{state: object, effects: object[]}}
 */
export function step(state, input) {
    const effects = [];
    let next = settleIfOver(state, input, effects);
    switch (input.type) {
        case "down":
            next = keyDown(next, input, effects);
            break;
        case "up":
            next = keyUp(next, input);
            break;
        case "board":
            next = boardCame(next, input, effects);
            break;
        case "time":
            next = drop(next, input.at, effects);
            break;
        case "outcome":
            next = outcomeCame(next, input, effects);
            break;
        case "blur":
            next = { ...settle(next, input, effects), down: {} };
            effects.push({ effect: "tone", tone: "lostFocus" }, { effect: "focus", lost: true });
            break;
        case "focus":
            effects.push({ effect: "focus", lost: false });
            break;
        case "bindings":
            next = { ...next, bindings: readBindings(input.bindings) };
            break;
        case "who":
            next = { ...next, who: input.who, opened: null };
            break;
        case "waiting":
            next = { ...next, waiting: input.count };
            break;
        default:
            throw new Error(`There is no input of the type ${input.type}.`);
    }

    return { state: next, effects };
}

/** When a step with { type: "time" } is due, in ms; Infinity for never. */
export function nextTime(state) {
    return Math.min(
        state.run ? state.run.lastAt + heldFor : Infinity,
        state.ask ? state.ask.until : Infinity,
        state.scan ? state.scan.until : Infinity,
        ...Object.values(state.answered).map((answer) => answer.freeAt ?? Infinity));
}

/** Whether the keypad wants this key for itself, so that the browser must not act on it. */
export function wants(state, input) {
    return !isForeign(input) && (actionOf(state.bindings, input) !== null || isCharacter(input.key));
}

/** Keys typed into a field, and keys with control, alt or meta held, are none of ours. */
function isForeign(input) {
    return input.inText || input.ctrl || input.alt || input.meta;
}

function keyDown(state, input, effects) {
    if (isForeign(input)) {
        return state;
    }

    const action = actionOf(state.bindings, input);
    if (action === null && !isCharacter(input.key)) {
        return state;
    }

    const seen = state.down[input.code];
    const down = { ...state.down, [input.code]: input.at };
    if (input.repeat || (seen !== undefined && input.at - seen < forgottenAfter)) {
        return { ...state, down };
    }

    const key = {
        code: input.code,
        key: input.key,
        action,
        at: input.at,
        question: questionOf(state),
        since: state.questionSince,
    };
    if (state.run && !belongs(state.run, input.at)) {
        state = settle(state, input, effects);
    }

    const run = { keys: [...(state.run?.keys ?? []), key], lastAt: input.at };
    return { ...state, run, down };
}

function keyUp(state, input) {
    const { [input.code]: _, ...down } = state.down;
    return { ...state, down };
}

function settleIfOver(state, input, effects) {
    return state.run && isOver(state.run, input.at) ? settle(state, input, effects) : state;
}

/** What the held-back keys were is decided now. */
function settle(state, input, effects) {
    if (!state.run) {
        return state;
    }

    const was = classify(state.run);
    const settled = { ...state, run: null };
    switch (was.is) {
        case "scan":
            return scanned(forget(settled, effects), was.text, input.at, effects);
        case "clash":
            effects.push({ effect: "tone", tone: "refused" }, { effect: "say", word: "twoKeysAtOnce", kind: "refused" });
            return settled;
        default:
            return oneKey(settled, was.key, input, effects);
    }
}

function oneKey(state, key, input, effects) {
    const last = state.last[key.code];
    const noted = { ...state, last: { ...state.last, [key.code]: { at: key.at, question: key.question?.key } } };
    if (last && isDoubled(last, key)) {
        effects.push({ effect: "tone", tone: "refused" }, { effect: "say", word: "pressedTwice", kind: "refused" });
        return noted;
    }

    return act(noted, key, input, effects);
}
