// Draws a board. What moves now is drawn by eyes.js at every frame; all else only when it changed.

import { actionsFor } from "./answers.js";
import { labelsOf } from "./bindings.js";
import { gradeLabels, grades } from "./legend.js";
import { at, lines, list, make, mark, show, text } from "./dom.js";

/**
 * Draws all that follows from the board.
 * @param optional { opened, offered }: the optional question that was opened, or null, and those that may be.
 */
export function paint(board, bindings, say, optional) {
    const exam = board.exam;
    patient(exam, say);
    instrument(board, say);
    steps(exam?.steps ?? [], say);
    question(exam, optional.opened, bindings, say);
    offers(optional, bindings, say);
    record("right", "OD", exam, say);
    record("left", "OS", exam, say);
    both(exam);
    lines(at("drops"), exam?.beforeDrops ?? []);
    show(at("drops-box"), (exam?.beforeDrops ?? []).length > 0);
    lines(at("gaps"), exam?.gaps ?? []);
    lines(at("reminders"), [...bench(board), ...board.reminders, ...(exam?.reminders ?? [])].map((one) => one.words));
    room(board, say);
    before(board.before, say);
}

/** What the service bench has to say: a run that takes the readings, and a calibration that does not hold. */
function bench(board) {
    const calibration = board.calibration?.standing === "holds" ? null : board.calibration;
    return [board.bench, calibration].filter(Boolean);
}

function patient(exam, say) {
    const who = exam?.patient;
    text(at("patient-number"), who ? who.patient : exam ? say("Patient.None") : say("Patient.NoExam"));
    mark(at("patient"), "state", who ? "named" : exam ? "missing" : "none");
    const birth = who?.birthDate ? say("Patient.Born", who.birthDate) : "";
    text(at("patient-more"), who ? [who.name, birth].filter(Boolean).join(" · ") : exam ? say("Patient.NoneNext") : "");
    text(at("exam-number"), exam ? say("Exam.Number", exam.exam) : "");
    const link = at("exam-link");
    show(link, Boolean(exam));
    if (exam) {
        link.href = `/exams/${exam.exam}`;
    }
}

function instrument(board, say) {
    text(at("instrument"), `${board.model} ${board.instrument}`.trim());
    text(at("line"), board.line === "connected" ? say("Line.Connected") : board.lineWords);
    mark(at("line"), "state", board.line);
    text(at("battery"), board.batteryPercent === null ? "" : say("Battery.Percent", board.batteryPercent));
    mark(at("battery"), "state", board.batteryPercent !== null && board.batteryPercent < 20 ? "low" : "well");
    mark(document.body, "received", String(board.receivedEvents));
    const behind = board.receivedEvents - board.recordedEvents;
    text(at("behind"), behind > 0 ? say("Events.NotRecorded", behind) : "");
    text(at("trouble"), board.trouble ?? "");
    show(at("trouble"), Boolean(board.trouble));
}

function steps(all, say) {
    const now = all.find((step) => step.state === "due")?.step;
    list(at("steps"), all.map((step) => ({ ...step, isNow: step.step === now })), "li", (item, step) => {
        item.dataset.state = step.state;
        if (step.isNow) {
            item.setAttribute("aria-current", "step");
        }

        const eyes = step.eyes.length === 1 ? ` ${step.eyes[0]}` : "";
        item.append(make("span", step.name, "name"), make("span", `${say(`Step.${step.state}`)}${eyes}`, "state"));
    });
    show(at("steps"), all.length > 0);
}

function question(exam, opened, bindings, say) {
    const prompt = opened ?? exam?.prompt;
    text(at("prompt"), prompt ? prompt.words : say("Prompt.NoExam"));
    text(at("detail"), prompt ? prompt.detail : say("Prompt.NoExamNext", labelsOf(bindings, "patient")[0] ?? ""));
    mark(at("ask"), "accepts", prompt?.accepts ?? "none");
    mark(at("ask"), "promptKey", prompt?.key ?? "");
    mark(at("ask"), "optional", opened ? "yes" : "no");
    list(at("answers"), answersTo(prompt, bindings, say), "li", (item, { labels, name }) => {
        item.append(...labels.map((label) => make("kbd", label)), make("span", name));
    });
}

/** What may be asked beside it, with the key that opens it; and which eye is to be lit and which pupil watched once it is open. */
function offers({ opened, offered }, bindings, say) {
    mark(at("ask"), "offered", offered.map((prompt) => prompt.key).join(" "));
    const shown = opened ? [] : offered.slice(0, 1);
    list(at("optional"), shown.map(({ words }) => ({ labels: labelsOf(bindings, "optional"), words })), "li", (item, { labels, words }) => {
        item.append(...labels.map((label) => make("kbd", label)), make("span", say("Optional.Offer", words)));
    });
    show(at("optional"), shown.length > 0);
    for (const [id, eye] of [["right", "OD"], ["left", "OS"]]) {
        show(at(`${id}-role`), opened !== null);
        text(at(`${id}-role`), opened === null ? "" : say(opened.eye === eye ? "Role.light" : "Role.watch"));
        mark(at(id), "role", opened === null ? "none" : opened.eye === eye ? "light" : "watch");
    }
}

/** The keys that answer: the five grades as one line, each other key with what it means for this very question. */
export function answersTo(prompt, bindings, say) {
    const others = (prompt ? actionsFor(prompt) : ["patient"])
        .filter((action) => !grades.includes(action))
        .map((action) => ({ labels: labelsOf(bindings, action), name: answerName(prompt, action, say) }));
    return prompt?.accepts === "grade"
        ? [{ labels: gradeLabels(bindings), name: say("Action.grades") },
            { labels: labelsOf(bindings, "half"), name: say("Action.half") }, ...others, ...turns(prompt, bindings, say)]
        : others;
}

/** An optional question can be put away, or turned to the other eye, by the key that opened it. */
function turns(prompt, bindings, say) {
    return prompt.isOptional ? [{ labels: labelsOf(bindings, "optional"), name: say("Optional.Turn") }] : [];
}

/** What a key means for this very question, such as "OD not round". */
function answerName(prompt, action, say) {
    const kind = prompt?.accepts === "shape" ? (prompt.eye ? "shapeOf" : "shape") : prompt?.accepts;
    const own = kind === "shape" || kind === "shapeOf" || kind === "swing" ? `Answer.${kind}.${action}` : `Action.${action}`;
    return say(own, prompt?.eye ?? "");
}

function record(id, eye, exam, say) {
    const sizes = (exam?.sizes ?? []).filter((size) => size.eye === eye).map((size) => ({
        name: say(size.light ? `Light.${size.light}` : "Light.unknown"),
        value: say("Size.Value", size.millimetres.toFixed(2), size.uncertaintyMillimetres.toFixed(2)),
    }));
    list(at(`${id}-sizes`), sizes, "li", (item, size) => {
        item.append(make("span", size.name, "name"), make("span", size.value, "value"));
    });
    lines(at(`${id}-judged`), [
        ...held(exam, eye, say),
        ...judged(exam, (words) => words.includes(eye) && !words.startsWith("swing")),
    ]);
}

/** What holds of an eye before the test. */
function held(exam, eye, say) {
    return (exam?.eyeStatuses ?? []).filter((status) => status.eye === eye).map((status) =>
        say("Eyes.Held", status.conditions.map((one) => say(`Condition.${one}`)).join(", "), status.who));
}

function both(exam) {
    lines(at("both-judged"), judged(exam, (words) => words.startsWith("swing")));
}

function judged(exam, belongs) {
    return (exam?.judgements ?? []).filter((one) => belongs(one.judgement)).map((one) => `${one.words} (${one.who})`);
}

function room(board, say) {
    const { light, lux, mustBeSaid } = board.room;
    const name = light ? say(`Light.${light}`) : say("Light.unknown");
    text(at("room"), lux === null ? name : say("Room.WithLux", name, lux < 10 ? lux.toFixed(1) : Math.round(lux)));
    text(at("room-hint"), mustBeSaid ? say("Room.MustBeSaid") : "");
    text(at("fixation"), board.fixation ? say(`Fixation.${board.fixation}`) : say("Fixation.unknown"));
    mark(at("fixation"), "state", board.fixation ?? "unknown");
    text(at("dial"), dial(board, say));
}

function dial(board, say) {
    const mode = board.mode ? say(`Mode.${board.mode}`) : say("Mode.unknown");
    return board.block && board.block !== "none" ? `${mode}, ${say(`Block.${board.block}`)}` : mode;
}

function before(exam, say) {
    show(at("before"), Boolean(exam));
    if (exam) {
        text(at("before-words"), say("Before.Exam", exam.patient ?? say("Patient.None"), exam.words));
        at("before-link").href = `/exams/${exam.exam}`;
        lines(at("before-drops"), exam.beforeDrops.length > 0 ? [`${say("Drops.Title")}:`, ...exam.beforeDrops] : []);
    }
}
