// Entering and refusing: what all keys have in common.

/** Refuses a key with a tone and words; nothing is entered. */
export function refuse(state, effects, word, args = []) {
    effects.push({ effect: "tone", tone: "refused" }, { effect: "say", word, args, kind: "refused" });
    return state;
}

/** Enters, and remembers what was entered so that it can be taken back. */
export function put(state, key, effects, entries, about) {
    for (const entry of entries) {
        effects.push({ effect: "enter", typedAt: key.at, entry });
    }

    const item = { ids: entries.map((entry) => entry.entryId), recorded: [], exam: entries[0].exam, who: state.who, ...about };
    return { ...state, own: [...state.own, item] };
}

/** What this person entered on an exam and did not take back, the latest last: first what the board knows from before this page. */
export function ownOn(state, exam) {
    const here = state.own.filter((one) => one.exam === exam.exam);
    const known = new Set(here.flatMap((one) => one.ids));
    const before = exam.judgements
        .filter((one) => one.who === state.who && !known.has(one.entryId))
        .map((one) => ({ ids: [one.entryId], is: "judgement", judgement: one.judgement, exam: exam.exam, who: one.who,
            question: { step: one.step, stimulus: null, key: null } }));
    return [...before, ...here].filter(
        (one) => one.who === state.who && !one.isRefused && !one.ids.some((id) => state.withdrawn.includes(id)));
}
