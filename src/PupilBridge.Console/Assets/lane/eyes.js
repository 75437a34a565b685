// What moves now: scale positions, the lit eye with its dwell, and the time in the dark. None of it is on record, and it looks so.

import { clock, dwellRun, since } from "./clocks.js";
import { at, mark, show, text } from "./dom.js";

/** Draws both eyes as they are at this moment. */
export function paintEyes(board, ahead, now, say) {
    eye("right", board.right, board.mode, ahead, now, say);
    eye("left", board.left, board.mode, ahead, now, say);
}

function eye(id, live, mode, ahead, now, say) {
    const diameter = live.liveMillimetres;
    text(at(`${id}-live`), diameter === null ? "–" : diameter.toFixed(2));
    text(at(`${id}-moving`), live.isMoving ? say("Live.Moving") : diameter === null ? say("Live.None") : say("Live.Resting"));
    mark(at(`${id}-live-box`), "state", live.isMoving ? "moving" : diameter === null ? "none" : "resting");
    const position = live.positionMicrometres;
    text(at(`${id}-position`), position === null ? "" : "· " + say("Live.Position", (position / 1000).toFixed(2)));
    light(id, live, ahead, now, say);
}

function light(id, live, ahead, now, say) {
    const run = dwellRun(live, ahead, now);
    const lit = live.isLit ? since(live.litSince, ahead, now) : null;
    const dark = since(live.darkSince, ahead, now);
    mark(at(id), "lit", live.isLit ? "yes" : "no");
    text(at(`${id}-light`), live.isLit
        ? say("Eye.Lit", ((lit ?? 0) / 1000).toFixed(1))
        : dark === null ? say("Eye.NotLit") : say(dark >= live.darkSettledAfterMilliseconds ? "Eye.Settled" : "Eye.Dark", clock(dark)));
    const bar = at(`${id}-dwell`);
    show(bar, run !== null);
    if (run !== null) {
        bar.value = run;
    }
}
