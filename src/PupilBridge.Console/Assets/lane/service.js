// What the lane asks of the service besides its feed.

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

    /** Changes who is signed in here. */
    change(who, password) {
        return this.#post("/api/v1/session/change", { who, password, lane: this.lane.instrument });
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
     * Asks for this page again, for who is signed in now and a form token that fits.
     * @returns {Promise<boolean>} false if nobody is signed in.
     */
    async renew() {
        const answer = await fetch(location.pathname, { cache: "no-store", headers: { Accept: "text/html" } });
        const page = new DOMParser().parseFromString(await answer.text(), "text/html");
        const data = answer.ok ? page.getElementById("lane-data") : null;
        if (!data) {
            return false;
        }

        const { who, formToken } = JSON.parse(data.textContent);
        Object.assign(this.lane, { who, formToken });
        return true;
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
        });
        return { status: answer.status, body: await bodyOf(answer) };
    }
}

async function bodyOf(answer) {
    return /json/.test(answer.headers.get("Content-Type") ?? "") ? answer.json() : null;
}
