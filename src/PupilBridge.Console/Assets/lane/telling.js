// The lines in which the page tells what it did: the notice, what waits to be recorded, what was refused; and the voice for readers of
// the screen, which is polite and never floods.

import { at, list as fit, make, mark, show, text } from "./dom.js";

/** How long a plain notice stands, in ms; a question or a refusal by the service stands until it is answered or dismissed. */
const noticeStands = 8000;

/** The least time between two announcements to a reader of the screen, in ms. */
const quietFor = 700;

const asSentence = (words) => (/[.!?:…]$/u.test(words) ? words : `${words}.`);

/** Tells. */
export class Teller {
    #say;
    #until = 0;
    #about = null;
    #heard = [];
    #timer = 0;

    constructor(say) {
        this.#say = say;
    }

    /** Shows and announces a notice. @param kind "info", "refused" or "asks". */
    notice(words, kind, now, { about = null, list: more = [] } = {}) {
        const box = at("notice");
        text(at("notice-words"), words);
        fit(at("notice-list"), more, "li", (item, line) => item.append(line));
        show(at("notice-list"), more.length > 0);
        mark(box, "kind", kind);
        show(box, true);
        this.#until = kind === "asks" ? Infinity : now + noticeStands;
        this.#about = about;
        this.announce([words, ...more].join(" "));
    }

    /** Takes away the notice about something that no longer stands. */
    clear(what) {
        if (this.#about === what) {
            this.#hide();
        }
    }

    /** Takes away a notice that stood long enough. */
    tidy(now) {
        if (now >= this.#until) {
            this.#hide();
        }
    }

    /** Shows what is not recorded yet, and what was refused. */
    outbox(items) {
        fit(at("waiting"), items.map((item) => this.#line(item)), "li", (line, { state, words, why }) => {
            line.dataset.state = state;
            line.append(make("span", words, "words"), make("span", why, "why"));
        });
        show(at("waiting"), items.length > 0);
    }

    /** Announces to readers of the screen; what comes in quick succession comes together. */
    announce(words) {
        if (words && !this.#heard.includes(words)) {
            this.#heard.push(words);
        }

        if (!this.#timer && this.#heard.length > 0) {
            this.#timer = setTimeout(() => {
                this.#timer = 0;
                at("heard").textContent = this.#heard.splice(0, 4).map(asSentence).join(" ");
                this.#heard = [];
            }, quietFor);
        }
    }

    #line({ entry, state, reason, nextStep }) {
        const words = entry.judgement ?? this.#say(`Entry.${entry.entry}`, entry.patient ?? entry.light ?? entry.fixation ?? entry.eye ?? "");
        return state === "refused"
            ? { state, words, why: [this.#say("Outbox.Refused"), reason ?? this.#say("Outbox.NoReason"), nextStep ?? "",
                this.#say("Outbox.Dismiss")].filter(Boolean).join(" ") }
            : { state, words, why: this.#say("Outbox.Waiting") };
    }

    #hide() {
        this.#until = Infinity;
        this.#about = null;
        show(at("notice"), false);
    }
}
