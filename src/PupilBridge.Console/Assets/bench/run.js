// Follows a run on the bench: what was recorded shows without anybody touching the page, since the technician's hands and eyes are at
// the instrument. A tone says whether a reading counts. Without this script a link shows the run as it is.

import { Feed } from "../lane/feed.js";
import { Player, readSound, writeSound } from "../lane/tones.js";

const following = document.getElementById("following");
const words = document.getElementById("follow-words");
const told = document.getElementById("told");
const player = new Player(readSound(localStorage));
let isLeaving = false;
let isAsking = false;
let isStale = false;

/** What the page shows now, as far as a tone or a voice tells of it. */
function shown() {
    const asked = document.querySelector("#live .asked");
    return {
        done: Number(asked?.dataset.done ?? 0),
        other: Number(asked?.dataset.other ?? 0),
        state: asked?.dataset.state ?? "",
        asked: document.getElementById("asked-words")?.textContent ?? "",
    };
}

function tell(before) {
    const now = shown();
    if (now.done > before.done) {
        player.play("accepted");
    } else if (now.other > before.other) {
        player.play("refused");
    }

    if (now.asked !== before.asked) {
        told.textContent = now.asked;
        player.say(now.asked, document.documentElement.lang);
    }

    if (now.state !== before.state && document.activeElement?.closest("form") === null) {
        // The run has ended, perhaps by somebody else: the forms below are no longer those of the run. What somebody types is left alone.
        isLeaving = true;
        location.replace(location.pathname);
    }
}

/** Puts the part that changes in its place, as the service shows it now. */
async function renew() {
    if (isAsking) {
        isStale = true;
        return;
    }

    isAsking = true;
    try {
        do {
            isStale = false;
            const answer = await fetch(location.href, { cache: "no-store" });
            if (!answer.ok || answer.redirected || isLeaving) {
                return;
            }

            const next = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById("live");
            if (next !== null) {
                const before = shown();
                const open = [...document.querySelectorAll("#live details")].map((one) => one.open);
                const focused = document.activeElement?.closest("#live") ? document.activeElement.getAttribute("href") : null;
                document.getElementById("live").replaceWith(document.adoptNode(next));
                document.querySelectorAll("#live details").forEach((one, i) => { one.open = open[i] ?? false; });
                if (focused !== null) {
                    document.querySelector(`#live a[href="${CSS.escape(focused)}"]`)?.focus({ preventScroll: true });
                }

                tell(before);
            }
        } while (isStale);
    } catch {
        // The line to the service is down: the feed tells of it, and asks again when it is back.
    } finally {
        isAsking = false;
    }
}

const feed = new Feed(following.dataset.events, {
    board: renew,
    lost: () => { words.textContent = words.dataset.lost; },
    back: () => { words.textContent = words.dataset.back; renew(); },
    refused: () => { words.textContent = words.dataset.off; },
    signedOff: () => { location.replace(location.pathname); },
});

// A form that was sent leads to a page of its own; this one must not take that page's words from it.
document.addEventListener("submit", () => { isLeaving = true; });

const sound = document.getElementById("sound-on");
const speech = document.getElementById("speech-on");
sound.checked = !player.sound.isMuted;
speech.checked = player.sound.isSpoken;
for (const box of [sound, speech]) {
    box.addEventListener("change", () => {
        player.sound = { ...player.sound, isMuted: !sound.checked, isSpoken: speech.checked };
        writeSound(localStorage, player.sound);
    });
}

document.getElementById("sounds").hidden = false;
for (const kind of ["keydown", "pointerdown"]) {
    document.addEventListener(kind, () => player.allow(), { passive: true });
}

feed.start();
