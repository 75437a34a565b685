// What changed from one board to the next, as far as an examiner should hear of it without looking.

const questions = new Set(["grade", "shape", "swing", "light", "ready"]);

/**
 * Compares two boards.
 * @param before The board before; null at the beginning, when nothing is told but what is wrong.
 * @returns {{tone: string|null, text: string}[]} what to sound and to say, the weightiest first.
 */
export function changes(before, now) {
    return [
        ...fresh(before?.trouble ? [before.trouble] : [], now.trouble ? [now.trouble] : []).map(told("refused")),
        ...line(before, now),
        ...fresh(words(before?.reminders), words(now.reminders)).map(reminder(now.reminders)),
        ...fresh(onBench(before), onBench(now)).map(told(null)),
        ...patient(before?.exam, now.exam),
        ...fresh(before?.exam?.gaps ?? [], now.exam?.gaps ?? []).map(told("refused")),
        ...fresh(words(before?.exam?.reminders), words(now.exam?.reminders)).map(reminder(now.exam?.reminders ?? [])),
        ...fresh(before?.exam?.beforeDrops ?? [], now.exam?.beforeDrops ?? []).map(told("due")),
        ...question(before, now),
    ];
}

/** A run on the bench is said when it begins: it is why nothing is asked for. */
function onBench(board) {
    return board?.bench ? [board.bench.words] : [];
}

function question(before, now) {
    const prompt = now.exam?.prompt;
    if (!prompt || prompt.key === before?.exam?.prompt.key) {
        return [];
    }

    return [{ tone: questions.has(prompt.accepts) ? "due" : null, text: prompt.words }];
}

function patient(before, now) {
    const name = (exam) => exam?.patient?.patient ?? "";
    return now && name(now) !== name(before) && name(now) ? [{ tone: null, text: name(now) }] : [];
}

function line(before, now) {
    if (!before ? now.line === "connected" : before.line === now.line) {
        return [];
    }

    return [{ tone: now.line === "connected" ? null : "refused", text: now.lineWords }];
}

function reminder(all) {
    return (text) => {
        const one = all.find((each) => each.words === text);
        return { tone: !one?.isUrgent ? null : isLeftOn(one) ? "leftOn" : "due", text };
    };
}

/** Whether a reminder says that the instrument was left on. */
export function isLeftOn(one) {
    return /left-?on/i.test(one.kind);
}

function words(reminders) {
    return (reminders ?? []).map((one) => one.words);
}

function told(tone) {
    return (text) => ({ tone, text });
}

function fresh(before, now) {
    return now.filter((one) => !before.includes(one));
}
