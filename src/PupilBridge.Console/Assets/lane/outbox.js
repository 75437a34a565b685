// What was typed and is not recorded yet. It is kept in the browser's storage until the service has said what became of it, so that
// neither a lost connection nor a closed page loses it; it is sent in order, and again with the same id, which is recorded once.

import { delayAfter, readAnswer } from "./answer.js";

const prefix = "pupilbridge.out";

/** The entries of one lane that wait, or were refused and not yet read. */
export class Outbox {
    #parts;
    #items = new Map();
    #failed = 0;
    #renewed = false;
    #isSending = false;
    #isStopped = false;
    #order = 0;

    /**
     * @param parts { lane, store, now(), send(entry) → {status, body}, renew(), later(ms, action), changed(), outcome(item, answer), signIn() }
     *   where store is like localStorage, send rejects when no answer came, and renew gets a fresh form token.
     */
    constructor(parts) {
        this.#parts = parts;
        this.readStore();
    }

    /** All items in their order: { entry, state: "waiting"|"refused", reason, nextStep, after }. */
    get items() {
        return [...this.#items.values()].sort((a, b) => a.order - b.order);
    }

    /** How many entries are not recorded yet. */
    get waiting() {
        return this.items.filter((item) => item.state === "waiting").length;
    }

    /** Whether sending fails just now. */
    get isFailing() {
        return this.#failed > 0;
    }

    /** Whether sending waits for someone to sign in. */
    get isStopped() {
        return this.#isStopped;
    }

    /**
     * Takes an entry in.
     * @param entry The entry with its id.
     * @param after The id of the entry without which this one makes no sense; null for none.
     */
    add(entry, after = null) {
        this.#order = Math.max(this.#order + 1, this.#parts.now());
        this.#keep({ entry, after, state: "waiting", order: this.#order });
        this.#parts.changed();
        return this.pump();
    }

    /** Sends what waits, one after the other. */
    async pump() {
        if (this.#isSending || this.#isStopped) {
            return;
        }

        this.#isSending = true;
        try {
            for (let item = this.#next(); item; item = this.#next()) {
                if (!(await this.#deliver(item))) {
                    return;
                }
            }
        } finally {
            this.#isSending = false;
            this.#parts.changed();
        }
    }

    /** Someone signed in, or the line is there again: goes on at once. */
    wake() {
        this.#isStopped = false;
        return this.pump();
    }

    /** A refusal was read. */
    dismiss(entryId) {
        const item = this.#items.get(entryId);
        if (item?.state === "refused") {
            this.#forget(item);
            this.#parts.changed();
        }
    }

    /** Reads what another page of this lane, or this one before it was closed, left in the store. */
    readStore() {
        const { store, lane } = this.#parts;
        for (let index = 0; index < store.length; index++) {
            const key = store.key(index);
            if (key.startsWith(`${prefix}.${lane}.`)) {
                this.#take(key, store.getItem(key));
            }
        }
    }

    #take(key, text) {
        try {
            const item = JSON.parse(text);
            if (item?.entry?.entryId && !this.#items.has(item.entry.entryId)) {
                this.#items.set(item.entry.entryId, { ...item, key });
                this.#order = Math.max(this.#order, item.order);
            }
        } catch {
            // Not ours, or cut off while it was written: what cannot be read cannot be sent, and stays where it is.
        }
    }

    #next() {
        return this.items.find((item) => item.state === "waiting");
    }

    async #deliver(item) {
        const before = item.after ? this.#items.get(item.after) : null;
        if (before?.state === "refused") {
            return this.#refuse(item, { is: "refused", reason: before.reason, nextStep: before.nextStep });
        }

        const answer = await this.#ask(item.entry);
        switch (answer.is) {
            case "recorded":
                this.#forget(item);
                this.#parts.outcome(item, answer);
                return true;
            case "refused":
                return this.#refuse(item, answer);
            case "signIn":
                this.#isStopped = true;
                this.#parts.signIn();
                return false;
            default:
                this.#failed++;
                this.#parts.later(delayAfter(this.#failed), () => this.pump());
                return false;
        }
    }

    async #ask(entry) {
        let answer;
        try {
            const { status, body } = await this.#parts.send(entry);
            answer = readAnswer(status, body);
        } catch {
            return { is: "again" };
        }

        if (answer.is === "renew") {
            if (this.#renewed) {
                return { is: "refused", reason: null, nextStep: null };
            }

            this.#renewed = true;
            await this.#parts.renew();
            return this.#ask(entry);
        }

        if (answer.is === "recorded" || answer.is === "refused") {
            this.#failed = 0;
            this.#renewed = false;
        }

        return answer;
    }

    #refuse(item, answer) {
        this.#keep({ ...item, state: "refused", reason: answer.reason, nextStep: answer.nextStep });
        this.#parts.outcome(item, answer);
        return true;
    }

    #keep(item) {
        const { store, lane } = this.#parts;
        const key = item.key ?? `${prefix}.${lane}.${String(item.order).padStart(16, "0")}.${item.entry.entryId}`;
        this.#items.set(item.entry.entryId, { ...item, key });
        try {
            store.setItem(key, JSON.stringify(item));
        } catch {
            // The store is full or closed: the entry is still here and is sent; only a closed page would lose it.
        }
    }

    #forget(item) {
        this.#items.delete(item.entry.entryId);
        try {
            this.#parts.store.removeItem(item.key);
        } catch {
            // It is sent once more after a new start, and the service drops the second copy.
        }
    }
}
