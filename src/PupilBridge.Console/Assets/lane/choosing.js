// Chooses the patient: type the beginning of a number or a name, arrows, Enter. A new patient is added in the same place.

import { closeDialog, openDialog, problem } from "./dialog.js";
import { at, list, make, show, text } from "./dom.js";
import { numberOf } from "./person.js";

const id = "patient-dialog";

/** The dialog that chooses a patient. */
export class Choosing {
    #service;
    #say;
    #choose;
    #exam = null;
    #rows = [];
    #chosen = 0;
    #asked = 0;

    /** @param choose Called with (patient, isNew, exam): { patient, name, birthDate }, and the exam that was on the lane. */
    constructor(service, say, choose) {
        this.#service = service;
        this.#say = say;
        this.#choose = choose;
        at("patient-find").addEventListener("input", () => this.#search());
        at(id).addEventListener("keydown", (event) => this.#key(event));
        at("patient-form").addEventListener("submit", (event) => {
            event.preventDefault();
            this.#enter();
        });
        at("patient-list").addEventListener("click", (event) => {
            const row = event.target.closest("[role=option]");
            if (row) {
                this.#pick([...row.parentElement.children].indexOf(row));
                this.#enter();
            }
        });
        at("patient-leave").addEventListener("click", () => closeDialog(id));
    }

    /** Opens it. @param exam The exam on the lane, or null. @param find What to look for at once. */
    open(exam, find = "") {
        if (!openDialog(id)) {
            return;
        }

        this.#exam = exam;
        const field = at("patient-find");
        field.value = find;
        at("patient-name").value = "";
        at("patient-birth").value = "";
        field.focus();
        this.#search();
    }

    async #search() {
        const find = at("patient-find").value.trim();
        const asked = ++this.#asked;
        try {
            const answer = find === "" ? await this.#service.dayList() : await this.#service.findPatients(find);
            if (asked === this.#asked) {
                problem(id, answer.status === 200 ? "" : this.#say("Choose.NoList"));
                this.#show(find, answer.status === 200 ? patientsOf(answer.body) : []);
            }
        } catch {
            if (asked === this.#asked) {
                problem(id, this.#say("Service.NoAnswer"));
                this.#show(find, []);
            }
        }
    }

    #show(find, found) {
        const isKnown = found.some((one) => one.patient.toLowerCase() === find.toLowerCase());
        this.#rows = [...found.map((one) => ({ ...one, isNew: false }))];
        if (find !== "" && !isKnown) {
            this.#rows.push({ patient: find, name: null, birthDate: null, isNew: true });
        }

        text(at("patient-list-name"), this.#say(find === "" ? "Choose.DayList" : "Choose.Found"));
        show(at("patient-nobody"), this.#rows.length === 0);
        this.#pick(0);
    }

    #pick(index) {
        this.#chosen = Math.max(0, Math.min(index, this.#rows.length - 1));
        const rows = this.#rows.map((row, i) => ({ ...row, isChosen: i === this.#chosen, i }));
        list(at("patient-list"), rows, "li", (item, row) => {
            item.id = `patient-row-${row.i}`;
            item.setAttribute("role", "option");
            item.setAttribute("aria-selected", String(row.isChosen));
            item.append(
                make("span", row.isNew ? this.#say("Choose.Add", row.patient) : row.patient, "number"),
                make("span", [row.mergedInto && this.#say("Choose.MergedInto", row.mergedInto), row.time, row.name, row.birthDate]
                    .filter(Boolean).join(" · "), "more"));
        });
        const row = this.#rows[this.#chosen];
        const field = at("patient-find");
        if (row) {
            field.setAttribute("aria-activedescendant", `patient-row-${this.#chosen}`);
        } else {
            field.removeAttribute("aria-activedescendant");
        }

        at(`patient-row-${this.#chosen}`)?.scrollIntoView({ block: "nearest" });
        show(at("patient-new"), Boolean(row?.isNew));
        text(at("patient-what"), row ? this.#what(numberOf(row)) : "");
    }

    #what(patient) {
        const exam = this.#exam;
        if (exam?.status !== "open") {
            return this.#say("Choose.Opens", patient);
        }

        if (!exam.patient) {
            return this.#say("Choose.Attaches", patient);
        }

        return numberOf(exam.patient) === patient
            ? this.#say("Choose.IsHere", patient)
            : this.#say("Choose.OpensNext", patient, exam.patient.patient);
    }

    #key(event) {
        const move = { ArrowDown: 1, ArrowUp: -1, PageDown: 8, PageUp: -8 }[event.key];
        if (move && event.target === at("patient-find")) {
            event.preventDefault();
            this.#pick(this.#chosen + move);
        }
    }

    #enter() {
        const row = this.#rows[this.#chosen];
        if (!row) {
            problem(id, this.#say("Choose.TypeFirst"));
            return;
        }

        if (row.isNew && document.activeElement === at("patient-find")) {
            // The first Enter shows what will be added; nobody is added by a slip of the finger.
            (at("patient-name").hidden ? at("patient-birth") : at("patient-name")).focus();
            return;
        }

        const more = row.isNew
            ? { name: at("patient-name").value.trim() || null, birthDate: at("patient-birth").value || null }
            : {};
        closeDialog(id);
        this.#choose({ ...row, ...more }, row.isNew, this.#exam);
    }
}

/** The patients in an answer of the service, whichever list it is. */
function patientsOf(body) {
    return (body?.patients ?? body?.entries ?? []).filter((one) => one?.patient);
}
