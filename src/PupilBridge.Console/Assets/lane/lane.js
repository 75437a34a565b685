// The lane's page: joins keys, outbox, feed, screen and sound. What each of them decides stands in its own module.

import { changes, isLeftOn } from "./changes.js";
import { aheadOf } from "./clocks.js";
import { at, mark, show, text } from "./dom.js";
import { isDialogOpen } from "./dialog.js";
import { Ending, isSaid } from "./ending.js";
import { paintEyes } from "./eyes.js";
import { Feed } from "./feed.js";
import { labelsOf } from "./bindings.js";
import { begin, nextTime, step, wants } from "./keypad.js";
import { paintLegend } from "./legend.js";
import { Outbox } from "./outbox.js";
import { offeredOn, openedOf } from "./optional.js";
import { paint } from "./paint.js";
import { Performer } from "./performing.js";
import { Service } from "./service.js";
import { freshIds, loadBindings } from "./settings.js";
import { Player, readSound } from "./tones.js";
import { Teller } from "./telling.js";
import { readPage, speaker } from "./words.js";

/** How often the soft tone comes again while an instrument is left on, in ms. */
const leftOnEvery = 60_000;

const { words, lane } = readPage(document);
const say = speaker(words);
const sound = new Player(readSound(localStorage));
const teller = new Teller(say);
const ending = new Ending(lane.secondsLeft, performance.now());
const service = new Service(lane, changed, (seconds) => ending.take(seconds, performance.now()));
let bindings = loadBindings(localStorage);
let keys = begin(lane.who, bindings);
let board = null;
let ahead = 0;
let timer = 0;
let lostSince = null;
let leftOnAt = 0;

const outbox = new Outbox({
    lane: lane.instrument,
    store: localStorage,
    now: () => Date.now(),
    send: (entry) => service.send(entry),
    renew: () => service.renew(),
    later: (ms, action) => setTimeout(action, ms),
    changed: () => {
        teller.outbox(outbox.items);
        if (outbox.waiting === 0) {
            teller.clear("kept");
        }

        take({ type: "waiting", count: outbox.waiting });
    },
    outcome: (item, answer) => performer.outcome(item, answer),
    signIn: () => performer.signing.again(),
});

const performer = new Performer({
    say, sound, teller, service, outbox, take,
    board: () => board,
    prompt: () => openedOf(keys) ?? board?.exam?.prompt,
    bindings: () => bindings,
    signedIn: () => {
        feed.start();
        outbox.wake();
    },
});

const feed = new Feed(`/api/v1/lanes/${encodeURIComponent(lane.instrument)}/events`, {
    board: boardCame,
    lost: () => {
        if (lostSince === null) {
            lostSince = new Date();
            text(at("lost"), say("Service.Lost", lostSince.toLocaleTimeString(lane.language, { hour12: false })));
            show(at("lost"), true);
            mark(document.body, "line", "lost");
            sound.play("refused");
            teller.announce(at("lost").textContent);
        }
    },
    refused: (words) => {
        text(at("lost"), words ?? say("Service.NoAnswer"));
        show(at("lost"), true);
        lostSince ??= new Date();
    },
    back: () => {
        if (board === null) {
            text(at("prompt"), say("Prompt.NotMet", lane.instrument));
            text(at("detail"), say("Prompt.NotMetNext", lane.instrument));
        }

        if (lostSince !== null) {
            lostSince = null;
            show(at("lost"), false);
            mark(document.body, "line", "there");
            teller.announce(say("Service.Back"));
        }

        outbox.wake();
    },
    signedOff: () => performer.signing.again(),
});

/** Takes one input of the keys and does what follows from it. */
function take(input) {
    const before = keys;
    const taken = step(keys, { at: performance.now(), ids: freshIds(2), ...input });
    keys = taken.state;
    if (board && input.type !== "board" && (keys.opened !== before.opened || keys.answered !== before.answered)) {
        draw();
    }

    taken.effects.forEach((effect) => performer.perform(effect));
    clearTimeout(timer);
    const due = nextTime(keys);
    if (due !== Infinity) {
        timer = setTimeout(() => take({ type: "time" }), Math.max(0, due - performance.now()));
    }
}

/** Another person is signed in here. What was typed before stays theirs. */
function changed(who) {
    text(at("examiner"), who);
    take({ type: "who", who });
    teller.announce(say("Examiner.Now", who));
}

function boardCame(now) {
    const told = changes(board, now);
    board = now;
    ahead = aheadOf(now, performance.now());
    take({ type: "board", board: now });
    draw();
    paintLegend(bindings, say, now.canSwitchOff);
    frame();
    told.forEach(({ tone, text: words }) => {
        if (tone) {
            sound.play(tone);
        }

        teller.announce(words);
    });
    const leftOn = [...now.reminders, ...(now.exam?.reminders ?? [])].find(isLeftOn);
    leftOnAt = leftOn ? leftOnAt || performance.now() : 0;
    const about = leftOn ? leftOn.words : [now.exam?.patient?.patient, now.exam?.prompt.words].filter(Boolean).join(" · ");
    document.title = say("Title", `${leftOn ? "● " : ""}${about || say("Patient.NoExam")}`, lane.instrument);
}

/** Draws the board with the question as the keys see it. */
function draw() {
    paint(board, bindings, say, { opened: openedOf(keys), offered: offeredOn(board.exam, keys.answered) });
}

/** Draws what runs: at every frame while an eye is lit or a scale moves, else four times a second. */
function frame() {
    if (board) {
        paintEyes(board, ahead, performance.now(), say);
    }
}

function run() {
    if (board && (board.right.isLit || board.left.isLit)) {
        frame();
    }

    requestAnimationFrame(run);
}

/** Tells in time that the session ends, so that the examiner signs in again between two steps and not in the middle of one. */
function tellEnding(now) {
    const minutes = ending.minutes(now);
    const words = minutes === null ? "" : say("Ends.Soon", minutes, labelsOf(bindings, "examiner").join(" "));
    if (at("ending").textContent !== words) {
        text(at("ending"), words);
        show(at("ending"), words !== "");
        teller.announce(isSaid(minutes) ? words : "");
    }
}

function tick() {
    frame();
    const now = performance.now();
    tellEnding(now);
    teller.tidy(now);
    show(at("sound-hint"), sound.isHeldBack);
    if (leftOnAt > 0 && now - leftOnAt >= leftOnEvery) {
        leftOnAt = now;
        sound.play("leftOn");
    }
}

/** Keys in a field, in a dialog, or that press a link or button that has the focus, are none of the lane's. */
function isElsewhere({ target, key }) {
    const isPressing = key === "Enter" || key === " ";
    return isDialogOpen() || target.closest?.("input, textarea, select, [contenteditable]") !== null
        || (isPressing && target.closest?.("a[href], button, summary") !== null);
}

document.addEventListener("keydown", (event) => {
    sound.allow();
    const input = {
        type: "down",
        code: event.code,
        key: event.key,
        shift: event.shiftKey,
        ctrl: event.ctrlKey,
        alt: event.altKey,
        meta: event.metaKey,
        repeat: event.repeat,
        inText: isElsewhere(event),
        at: event.timeStamp,
    };
    if (wants(keys, input)) {
        event.preventDefault();
    }

    // A key that came here is the best proof that keys do.
    show(at("unfocused"), false);

    take(input);
});
document.addEventListener("keyup", (event) => take({ type: "up", code: event.code, at: event.timeStamp }));
document.addEventListener("pointerdown", () => sound.allow());
addEventListener("blur", () => take({ type: "blur" }));
addEventListener("focus", async () => {
    take({ type: "focus" });
    await service.renew().catch(() => false);
});
addEventListener("storage", (event) => {
    bindings = loadBindings(localStorage);
    sound.sound = readSound(localStorage);
    take({ type: "bindings", bindings });
    if (board) {
        draw();
        paintLegend(bindings, say, board.canSwitchOff);
    }

    if (event.key?.startsWith("pupilbridge.out.")) {
        outbox.readStore();
        outbox.pump();
    }
});

text(at("examiner"), lane.who);
text(at("sound"), say(sound.sound.isMuted ? "Sound.Off" : "Sound.On"));
teller.outbox(outbox.items);
take({ type: "waiting", count: outbox.waiting });
if (!document.hasFocus()) {
    show(at("unfocused"), true);
}

feed.start();
outbox.pump();
setInterval(tick, 250);
run();
