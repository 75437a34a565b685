// What the lane asks of the service besides its feed.

import { readAnswer } from "./answer.js";

/** Without an answer for this long, in ms, none is waited for any longer; an entry is then sent again. */
const answersWithin = 20_000;

/** The service as one page of one lane sees it. */
export class Service {
    #seated;
    #ends;

    /**
     * @param lane What the server wrote into the page: { instrument, who, programVersion, formToken, … }.
     * @param seated Called with the name when another person turns out to be signed in here, also by another tab of this browser.
     * @param ends Called with the seconds that the session has left at the most.
     */
    constructor(lane, seated = () => {}, ends = () => {}) {
        this.lane = lane;
        this.#seated = seated;
        this.#ends = ends;
    }

    /** Sends an entry. Rejects when no answer came. */
    send(entry) {
        return this.#post("/api/v1/entries", entry);
    }

    /** Asks the instrument to switch itself off. */
    switchOff() {
        return this.#postFresh(`/api/v1/lanes/${encodeURIComponent(this.lane.instrument)}/switch-off`, {});
    }

    /** Changes who is signed in here. */
    async change(who, password) {
        const answer = await this.#postFresh("/api/v1/session/change", { who, password, lane: this.lane.instrument });
        if (answer.status === 200) {
            this.#seat(answer.body);
        }

        return answer;
    }

    /** Patients whose number or name begins so. */
    findPatients(find) {
        return this.#get(`/api/v1/patients?find=${encodeURIComponent(find)}`);
    }

    /** The list of the day. */
    dayList() {
        return this.#get("/api/v1/day-list");
    }

    /**
     * Asks who is signed in now, and for a form token that fits. Asking is no activity that would keep anyone signed in.
     * @returns {Promise<boolean>} false if nobody is signed in.
     */
    async renew() {
        const { status, body } = await this.#get("/api/v1/session");
        if (status !== 200 || !body) {
            return false;
        }

        this.#seat(body);
        return Boolean(body.who);
    }

    #seat({ who, formToken, secondsLeft }) {
        this.lane.formToken = formToken;
        this.#ends(secondsLeft);
        if (who && who !== this.lane.who) {
            this.lane.who = who;
            this.#seated(who);
        }
    }

    /** Asks; a page whose form token is of an earlier sign-in or too old gets itself a fresh one first. */
    async #postFresh(path, body) {
        const answer = await this.#post(path, body);
        if (readAnswer(answer.status, answer.body).is !== "renew") {
            return answer;
        }

        await this.renew();
        return this.#post(path, body);
    }

    async #get(path) {
        const answer = await fetch(path, { cache: "no-store", headers: { Accept: "application/json" } });
        return { status: answer.status, body: await bodyOf(answer) };
    }

    async #post(path, body) {
        const answer = await fetch(path, {
            method: "POST",
            headers: {
                "Content-Type": "application/json",
                Accept: "application/json",
                "X-PupilBridge-Form": this.lane.formToken,
            },
            body: JSON.stringify(body),
            signal: AbortSignal.timeout(answersWithin),
        });
        return { status: answer.status, body: await bodyOf(answer) };
    }
}

async function bodyOf(answer) {
    return /json/.test(answer.headers.get("Content-Type") ?? "") ? answer.json() : null;
}
