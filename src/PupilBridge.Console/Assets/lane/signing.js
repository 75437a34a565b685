// Another examiner at the lane, or the same one again after having been signed off. The exam runs on, and nothing typed is lost.

import { closeDialog, openDialog, problem, reasonOf } from "./dialog.js";
import { at, show, text } from "./dom.js";

const id = "examiner-dialog";

/** The dialog that asks for name and password. */
export class Signing {
    #service;
    #say;
    #done;
    #isNeeded = false;

    /** @param done Called once someone signed in. */
    constructor(service, say, done) {
        this.#service = service;
        this.#say = say;
        this.#done = done;
        at("examiner-form").addEventListener("submit", (event) => {
            event.preventDefault();
            this.#submit();
        });
        at(id).addEventListener("cancel", (event) => this.#isNeeded && event.preventDefault());
        at("examiner-leave").addEventListener("click", () => closeDialog(id));
    }

    /** Asks for another examiner. */
    change() {
        this.#open(false);
    }

    /** Asks the examiner, who was signed off, to sign in again. */
    again() {
        if (!this.#isNeeded) {
            document.querySelector("dialog[open]")?.close();
            this.#open(true);
        }
    }

    #open(isNeeded) {
        if (!openDialog(id)) {
            return;
        }

        this.#isNeeded = isNeeded;
        text(at("examiner-title"), this.#say(isNeeded ? "SignIn.Again" : "SignIn.Change"));
        text(at("examiner-why"), this.#say(isNeeded ? "SignIn.AgainWhy" : "SignIn.ChangeWhy"));
        show(at("examiner-leave"), !isNeeded);
        at("examiner-who").value = isNeeded ? this.#service.lane.who : "";
        at("examiner-password").value = "";
        at(isNeeded ? "examiner-password" : "examiner-who").focus();
    }

    async #submit() {
        const who = at("examiner-who").value.trim();
        const password = at("examiner-password").value;
        if (!who || !password) {
            problem(id, this.#say("SignIn.BothNeeded"));
            return;
        }

        const button = at("examiner-submit");
        button.disabled = true;
        try {
            await this.#ask(who, password);
        } catch {
            problem(id, this.#say("Service.NoAnswer"));
        } finally {
            button.disabled = false;
        }
    }

    async #ask(who, password) {
        const answer = await this.#service.change(who, password);
        at("examiner-password").value = "";
        if (answer.status !== 200) {
            problem(id, reasonOf(answer, this.#say("SignIn.Refused")));
            at("examiner-password").focus();
            return;
        }

        this.#isNeeded = false;
        closeDialog(id);
        this.#done();
    }
}
