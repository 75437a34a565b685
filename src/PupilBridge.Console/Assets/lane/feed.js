// Keeps the lane's board coming: notices when the connection is dead, and connects again by itself, also after the service was started
// anew. What is on the screen stays until something newer comes.

import { delayAfter } from "./answer.js";
import { begin, take } from "./stream.js";

/** Without a sign of life for this long, in ms, the connection is taken for lost. The service gives one every 10 s at least. */
export const deadAfter = 15_000;

/** The feed of one lane. */
export class Feed {
    #url;
    #told;
    #failed = 0;
    #abort = null;
    #timer = 0;
    #isStopped = false;

    /** @param told { board(board), lost(), back(), refused(words), signedOff() } */
    constructor(url, told) {
        this.#url = url;
        this.#told = told;
    }

    /** Connects, and stays connected. */
    start() {
        this.#isStopped = false;
        clearTimeout(this.#timer);
        this.#abort?.abort();
        this.#run();
    }

    async #run() {
        const abort = new AbortController();
        this.#abort = abort;
        let watch = setTimeout(() => abort.abort(), deadAfter);
        const isAlive = () => {
            clearTimeout(watch);
            watch = setTimeout(() => abort.abort(), deadAfter);
        };
        try {
            await this.#read(abort.signal, isAlive);
        } catch {
            // Whatever the reason, the answer is the same: tell, wait a little, connect again.
        } finally {
            clearTimeout(watch);
            if (this.#abort === abort) {
                this.#again();
            }
        }
    }

    async #read(signal, isAlive) {
        const answer = await fetch(this.#url, { headers: { Accept: "text/event-stream" }, cache: "no-store", signal });
        if (answer.status === 401 || (answer.redirected && answer.ok)) {
            this.#isStopped = true;
            this.#told.signedOff();
            return;
        }

        if (!answer.ok) {
            if (answer.status >= 400 && answer.status < 500) {
                this.#told.refused((await answer.json().catch(() => null))?.detail);
            }

            return;
        }

        const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
        let state = begin();
        let isFirst = true;
        for (let piece = await reader.read(); !piece.done; piece = await reader.read()) {
            isAlive();
            if (isFirst) {
                isFirst = false;
                this.#failed = 0;
                this.#told.back();
            }

            const came = take(state, piece.value);
            state = came.state;
            const boards = came.events.filter((one) => one.event === "board");
            if (boards.length > 0) {
                this.#told.board(JSON.parse(boards.at(-1).data));
            }
        }
    }

    #again() {
        if (this.#isStopped) {
            return;
        }

        this.#failed++;
        this.#told.lost();
        this.#timer = setTimeout(() => this.#run(), delayAfter(this.#failed));
    }
}
