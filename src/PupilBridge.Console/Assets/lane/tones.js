// Quiet tones that say what happened, so that an examiner need not look; and the browser's own speech, if it is wanted.

const key = "pupilbridge.lane.sound";

/** Each tone as notes: frequency in Hz, start and length in ms, and where the pitch glides to. */
const notes = {
    accepted: [[660, 0, 80]],
    refused: [[196, 0, 110], [196, 150, 110]],
    undone: [[520, 0, 150, 330]],
    due: [[440, 0, 90], [587, 110, 120]],
    opened: [[880, 0, 50], [880, 90, 50], [880, 180, 50]],
    lostFocus: [[262, 0, 100], [220, 130, 100], [185, 260, 160]],
    leftOn: [[330, 0, 260, 300], [330, 420, 260, 300]],
};

/** The names of all tones. */
export const tones = Object.keys(notes);

/** How loud, and whether at all: { isMuted, volume from 0 to 1, isSpoken }. */
export function readSound(store) {
    let stored = null;
    try {
        stored = JSON.parse(store.getItem(key));
    } catch {
        // Not understood: the defaults.
    }

    const volume = Number(stored?.volume ?? 0.4);
    return {
        isMuted: stored?.isMuted === true,
        volume: Number.isFinite(volume) ? Math.min(1, Math.max(0.05, volume)) : 0.4,
        isSpoken: stored?.isSpoken === true,
    };
}

/** Keeps how loud. */
export function writeSound(store, sound) {
    store.setItem(key, JSON.stringify(sound));
}

/** Plays tones. */
export class Player {
    #context = null;
    #free = 0;

    /** @param sound What {@link readSound} gave; may be replaced at any time. */
    constructor(sound) {
        this.sound = sound;
    }

    /** Whether the browser waits for a key or a click before it lets anything be heard. */
    get isHeldBack() {
        return !this.sound.isMuted && this.#context?.state !== "running";
    }

    /** To be called when a key was pressed: only then browsers let sound begin. */
    async allow() {
        this.#context ??= new AudioContext();
        if (this.#context.state === "suspended") {
            await this.#context.resume();
        }
    }

    /** Plays a tone after those that are still heard. */
    play(name) {
        if (this.sound.isMuted || this.#context?.state !== "running") {
            return;
        }

        const start = Math.max(this.#context.currentTime + 0.005, this.#free);
        for (const [pitch, after, length, glide] of notes[name]) {
            this.#note(pitch, start + after / 1000, length / 1000, glide);
            this.#free = start + (after + length + 60) / 1000;
        }
    }

    /** Says something aloud, if that is wanted. */
    say(text, language) {
        if (this.sound.isSpoken && text && "speechSynthesis" in globalThis) {
            const spoken = new SpeechSynthesisUtterance(text);
            spoken.lang = language;
            spoken.volume = this.sound.volume;
            speechSynthesis.cancel();
            speechSynthesis.speak(spoken);
        }
    }

    #note(pitch, at, length, glide = pitch) {
        const wave = this.#context.createOscillator();
        const loud = this.#context.createGain();
        wave.frequency.setValueAtTime(pitch, at);
        wave.frequency.linearRampToValueAtTime(glide, at + length);
        loud.gain.setValueAtTime(0, at);
        loud.gain.linearRampToValueAtTime(0.25 * this.sound.volume, at + 0.012);
        loud.gain.setTargetAtTime(0, at + length * 0.6, length / 6);
        wave.connect(loud).connect(this.#context.destination);
        wave.start(at);
        wave.stop(at + length + 0.1);
    }
}
