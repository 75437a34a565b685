// What became of something that was entered, as far as the keys are concerned: a tone, and whether its question stands again.

import { freeAgainAt } from "./standing.js";

/** An outcome came. */
export function outcomeCame(state, { entryId, entry, outcome, notice, at }, effects) {
    if (outcome === "refused") {
        effects.push({ effect: "tone", tone: "refused" });
        return {
            ...state,
            own: state.own.map((one) => (one.ids.includes(entryId) ? { ...one, isRefused: true } : one)),
            answered: without(state.answered, entryId),
            withdrawn: entry?.entry === "withdraw" ? state.withdrawn.filter((id) => id !== entry.withdrawn) : state.withdrawn,
        };
    }

    if (notice) {
        effects.push({ effect: "tone", tone: "refused" }, { effect: "tell", text: notice, kind: "refused" });
    }

    const item = state.own.find((one) => one.ids.includes(entryId));
    const recorded = item ? [...new Set([...item.recorded, entryId])] : [];
    if (!notice && (!item || recorded.length === item.ids.length)) {
        effects.push({ effect: "tone", tone: entry?.entry === "withdraw" ? "undone" : "accepted" });
    }

    return {
        ...state,
        own: state.own.map((one) => (one === item ? { ...one, recorded } : one)),
        answered: Object.fromEntries(Object.entries(state.answered).map(
            ([key, answer]) => [key, answer.ids.includes(entryId) ? { ...answer, freeAt: freeAgainAt(at) } : answer])),
    };
}

function without(answered, entryId) {
    return Object.fromEntries(Object.entries(answered).filter(([, answer]) => !answer.ids.includes(entryId)));
}
