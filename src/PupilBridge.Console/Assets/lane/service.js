// What the lane asks of the service besides its feed.

import { readAnswer } from "./answer.js";

/** Without an answer for this long, in ms, none is waited for any longer; an entry is then sent again. */
const answersWithin = 20_000;

/** The service as one page of one lane sees it. */
export class Service {
    /** @param lane What the server wrote into the page: { instrument, who, programVersion, formToken, … }. */
    constructor(lane) {
        this.lane = lane;
    }

    /** Sends an entry. Rejects when no answer came. */
    send(entry) {
        return this.#post("/api/v1/entries", entry);
    }

    /** Asks the instrument to switch itself off. */
    switchOff() {
        return this.#post(`/api/v1/lanes/${encodeURIComponent(this.lane.instrument)}/switch-off`, {});
    }

    /** Changes who is signed in here. A page that stood open for long gets itself a fresh form token first. */
    async change(who, password) {
        const ask = () => this.#post("/api/v1/session/change", { who, password, lane: this.lane.instrument });
        let answer = await ask();
        if (readAnswer(answer.status, answer.body).is === "renew") {
            await this.renew();
            answer = await ask();
        }

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

    #seat({ who, formToken }) {
        this.lane.formToken = formToken;
        this.lane.who = who ?? this.lane.who;
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
