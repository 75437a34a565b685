// Does what the keys wish: enters, sounds, tells, and opens what is asked for.

import { Choosing } from "./choosing.js";
import { Conditions } from "./conditions.js";
import { reasonOf } from "./dialog.js";
import { at, show, text } from "./dom.js";
import { answersTo } from "./paint.js";
import { numberOf } from "./person.js";
import { freshIds } from "./settings.js";
import { Signing } from "./signing.js";
import { writeSound } from "./tones.js";

/** An entry that is not recorded after this time, in ms, is told to be waiting. */
const shouldBeRecordedWithin = 1500;

/** While an exam is open, the instrument is switched off only by the same key again within this time, in ms. */
const againWithin = 6000;

/** Performs effects. */
export class Performer {
    #parts;
    #offAskedAt = -Infinity;

    /** @param parts { say, sound, teller, service, outbox, take, board(), prompt(), bindings(), signedIn() } */
    constructor(parts) {
        const { say, service } = parts;
        this.#parts = parts;
        this.signing = new Signing(service, say, parts.signedIn);
        this.choosing = new Choosing(service, say, (patient, isNew, exam) => this.choose(patient, isNew, exam));
        this.conditions = new Conditions(say, (exam, eye, conditions) =>
            this.enter({ entry: "eyeStatus", entryId: freshIds(1)[0], exam, eye, conditions }));
    }

    /** Performs one effect. */
    perform(effect) {
        const { sound, teller } = this.#parts;
        switch (effect.effect) {
            case "enter":
                // What an earlier key could not do is no news once a later one was taken.
                teller.clear("key");
                return this.enter(effect.entry, effect.typedAt, effect.after);
            case "tone":
                return sound.play(effect.tone);
            case "say":
                return this.#tell(effect);
            case "tell":
                return teller.notice(effect.text, effect.kind, performance.now());
            case "ask":
                teller.announce(effect.words);
                return sound.say(effect.words, document.documentElement.lang);
            case "clear":
                return teller.clear(effect.what);
            case "focus":
                return show(at("unfocused"), effect.lost);
            case "choosePatient":
                return this.#scanned(effect);
            default:
                return this.#open(effect.what);
        }
    }

    /** Enters something: it is kept, and sent until its outcome is known. */
    enter(entry, typedAt = performance.now(), after = null) {
        const { outbox, service, say, sound, teller } = this.#parts;
        const { who, programVersion } = service.lane;
        const typed = new Date(Date.now() - (performance.now() - typedAt)).toISOString();
        outbox.add({ ...entry, who, at: typed, programVersion }, after);
        setTimeout(() => {
            if (outbox.items.some((item) => item.entry.entryId === entry.entryId && item.state === "waiting")) {
                sound.play("due");
                teller.notice(say("Outbox.Kept"), "info", performance.now(), { about: "kept" });
            }
        }, shouldBeRecordedWithin);
    }

    /** The service said what became of an entry. */
    outcome({ entry }, answer) {
        const { take, say, sound, teller } = this.#parts;
        take({ type: "outcome", entryId: entry.entryId, entry, outcome: answer.is, notice: answer.notice });
        if (answer.is === "refused") {
            teller.announce([say("Outbox.Refused"), answer.reason, answer.nextStep].filter(Boolean).join(" "));
        } else if (!answer.notice) {
            if (entry.entry === "makeReady") {
                teller.notice(say("Ready.Done", entry.exam), "info", performance.now());
            }

            const words = entry.judgement ?? say(`Entry.${entry.entry}`, entry.patient ?? entry.light ?? entry.fixation ?? entry.eye ?? "");
            teller.announce(say("Outbox.Recorded", words));
            sound.say(words, document.documentElement.lang);
        }
    }

    /** Opens an exam for a patient, or attaches the one that has none. */
    choose(patient, isNew, exam) {
        const { service, say, teller } = this.#parts;
        if (exam?.status === "open" && exam.patient && numberOf(exam.patient) === numberOf(patient)) {
            teller.notice(say("Choose.IsHere", patient.patient), "info", performance.now());
            return;
        }

        const [newId, id] = freshIds(2);
        if (isNew) {
            const { patient: number, name, birthDate } = patient;
            this.enter({ entry: "patient", entryId: newId, patient: number, name, birthDate });
        }

        const entry = exam?.status === "open" && !exam.patient
            ? { entry: "attach", entryId: id, exam: exam.exam, patient: patient.patient }
            : { entry: "openExam", entryId: id, instrument: service.lane.instrument, patient: patient.patient };
        this.enter(entry, performance.now(), isNew ? newId : null);
    }

    #tell({ word, args = [], list = [], kind, about }) {
        const { say, teller, prompt: shown, bindings } = this.#parts;
        const prompt = shown();
        const isAboutKeys = word === "keyAnswersOther" || word === "nothingIsAsked";
        const answers = isAboutKeys && prompt
            ? answersTo(prompt, bindings(), say).map(({ labels, name }) => `${labels.join(" ")} ${name}`)
            : [];
        teller.notice(say(`Key.${word}`, ...args), kind, performance.now(),
            { about: about ?? (kind === "refused" ? "key" : null), list: [...list, ...answers] });
    }

    async #scanned({ patient }) {
        const { service, board, say, sound, teller } = this.#parts;
        const there = board()?.exam ?? null;
        try {
            const found = await service.findPatients(patient);
            const known = found.body?.patients?.find((one) => one.patient.toLowerCase() === patient.toLowerCase());
            if (known && (there?.exam ?? null) === (board()?.exam?.exam ?? null)) {
                this.choose(known, false, there);
                return;
            }
        } catch {
            // Told by the dialog below, which asks again.
        }

        sound.play("refused");
        this.choosing.open(board()?.exam ?? null, patient);
        teller.announce(say("Choose.NotKnown", patient));
    }

    #open(what) {
        const { board, say } = this.#parts;
        const exam = board()?.exam ?? null;
        switch (what) {
            case "patient":
                return this.choosing.open(exam);
            case "examiner":
                return this.signing.change();
            case "eyes":
                return exam ? this.conditions.open(exam) : this.#refuse(say("Key.noExam"));
            case "dismiss":
                return this.#dismiss();
            case "mute":
                return this.#mute();
            case "switchOff":
                return this.#switchOff();
            default:
                throw new Error(`Nothing is known to open for ${what}.`);
        }
    }

    #dismiss() {
        const { outbox, teller } = this.#parts;
        const refused = outbox.items.find((item) => item.state === "refused");
        if (refused) {
            outbox.dismiss(refused.entry.entryId);
        } else {
            teller.tidy(Infinity);
        }
    }

    #mute() {
        const { sound, say, teller } = this.#parts;
        sound.sound = { ...sound.sound, isMuted: !sound.sound.isMuted };
        writeSound(localStorage, sound.sound);
        text(at("sound"), say(sound.sound.isMuted ? "Sound.Off" : "Sound.On"));
        teller.notice(say(sound.sound.isMuted ? "Sound.NowOff" : "Sound.NowOn"), "info", performance.now());
        sound.play("accepted");
    }

    async #switchOff() {
        const { board, service, say, sound, teller } = this.#parts;
        if (!board()?.canSwitchOff) {
            return this.#refuse(say("SwitchOff.Cannot"));
        }

        const now = performance.now();
        if (board().exam?.status === "open" && now - this.#offAskedAt > againWithin) {
            this.#offAskedAt = now;
            sound.play("refused");
            return teller.notice(say("SwitchOff.ExamIsOpen"), "info", now);
        }

        this.#offAskedAt = -Infinity;
        try {
            const answer = await service.switchOff();
            if (answer.status === 401) {
                return this.signing.again();
            }

            const isDone = answer.status === 200 && answer.body?.done === true;
            sound.play(isDone ? "accepted" : "refused");
            teller.notice(answer.body?.words ?? reasonOf(answer, say("Service.NoAnswer")), isDone ? "info" : "refused", performance.now());
        } catch {
            this.#refuse(say("Service.NoAnswer"));
        }
    }

    #refuse(words) {
        this.#parts.sound.play("refused");
        this.#parts.teller.notice(words, "refused", performance.now());
    }
}
