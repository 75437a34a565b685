// What holds of an eye before the test, by digits.

import { closeDialog, openDialog, problem } from "./dialog.js";
import { at } from "./dom.js";

const id = "eyes-dialog";

/** The dialog that says what holds of an eye. */
export class Conditions {
    #say;
    #enter;
    #exam = null;

    /** @param enter Called with (exam, eye, conditions). */
    constructor(say, enter) {
        this.#say = say;
        this.#enter = enter;
        at(id).addEventListener("keydown", (event) => this.#key(event));
        at("eyes-form").addEventListener("submit", (event) => {
            event.preventDefault();
            this.#submit();
        });
        at("eyes-leave").addEventListener("click", () => closeDialog(id));
    }

    /** Opens it for an exam. */
    open(exam) {
        if (openDialog(id)) {
            this.#exam = exam.exam;
            at("eyes-form").reset();
            at("eyes-od").focus();
        }
    }

    /** Digits tick a condition, 7 and 9 choose the eye; numeric pad and digit row alike. */
    #key(event) {
        const digit = /^(?:Numpad|Digit)([0-9])$/.exec(event.code)?.[1];
        if (!digit || event.ctrlKey || event.altKey || event.metaKey || event.repeat) {
            return;
        }

        event.preventDefault();
        const field = digit === "7" ? at("eyes-od") : digit === "9" ? at("eyes-os") : at(`eyes-${digit}`);
        if (field?.type === "radio") {
            field.checked = true;
            field.focus();
        } else {
            field?.click();
        }
    }

    #submit() {
        const form = new FormData(at("eyes-form"));
        const eye = form.get("eye");
        const conditions = form.getAll("condition");
        const nothing = "nothing-remarkable";
        if (!eye || conditions.length === 0) {
            problem(id, this.#say("Eyes.ChooseBoth"));
        } else if (conditions.includes(nothing) && conditions.length > 1) {
            problem(id, this.#say("Eyes.NothingAlone"));
        } else {
            closeDialog(id);
            this.#enter(this.#exam, eye, conditions);
        }
    }
}
