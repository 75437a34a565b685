// Takes back the last thing that this person entered on the exam on the screen; pressed again, the one before.

import { ownOn, refuse } from "./entering.js";

/** Takes back the last own entry. What a key entered for both eyes goes together. */
export function undo(state, key, input, effects) {
    const exam = state.board?.exam;
    if (!exam) {
        return refuse(state, effects, "noExam");
    }

    const item = ownOn(state, exam).at(-1);
    if (!item) {
        return refuse(state, effects, "nothingToUndo");
    }

    item.ids.forEach((withdrawn, index) => effects.push({
        effect: "enter",
        typedAt: key.at,
        entry: { entry: "withdraw", entryId: input.ids[index], exam: exam.exam, withdrawn },
    }));
    const answered = Object.entries(state.answered).filter(([, answer]) => !answer.ids.some((id) => item.ids.includes(id)));
    return { ...state, withdrawn: [...state.withdrawn, ...item.ids], answered: Object.fromEntries(answered) };
}
