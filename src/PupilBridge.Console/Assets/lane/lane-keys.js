// The page on which keys and sound are chosen. Both are kept in this browser; an open lane follows at once.

import { addKey, defaults, labelOf, removeKey } from "./bindings.js";
import { at, list, make, text } from "./dom.js";
import { loadBindings, saveBindings } from "./settings.js";
import { Player, readSound, tones, writeSound } from "./tones.js";
import { readPage, speaker } from "./words.js";

const say = speaker(readPage(document).words);
const player = new Player(readSound(localStorage));
let bindings = loadBindings(localStorage);
let waitsFor = null;

function paint() {
    list(at("keys"), defaults.map(({ action }) => ({ action, tokens: bindings[action], isWaiting: waitsFor === action })), "tr",
        (row, { action, tokens, isWaiting }) => {
            const name = make("th", say(`Action.${action}`));
            name.scope = "row";
            const keys = make("td");
            tokens.forEach((token) => keys.append(removal(action, token)));
            const change = make("td");
            const button = make("button", say(isWaiting ? "Keys.PressNow" : "Keys.Add"));
            button.type = "button";
            button.id = `add-${action}`;
            button.setAttribute("aria-label", `${say("Keys.Add")}: ${say(`Action.${action}`)}`);
            button.addEventListener("click", () => wait(action));
            change.append(button);
            row.append(name, keys, change);
        });
}

function removal(action, token) {
    const button = make("button");
    button.type = "button";
    button.append(make("kbd", labelOf(token)), make("span", ` ${placeOf(token)} ×`));
    button.setAttribute("aria-label", say("Keys.Remove", `${labelOf(token)} ${placeOf(token)}`, say(`Action.${action}`)));
    button.addEventListener("click", () => changed(removeKey(bindings, action, token), "Keys.Removed", action));
    return button;
}

/** Where a key lies, if its label does not tell: the numeric pad has the same labels as the row of digits. */
function placeOf(token) {
    return token.startsWith("Numpad") ? say("Keys.OnPad") : "";
}

function wait(action) {
    waitsFor = action;
    text(at("keys-said"), say("Keys.PressFor", say(`Action.${action}`)));
    paint();
    at(`add-${action}`).focus();
}

function changed({ bindings: next, problem }, word, action) {
    bindings = next;
    if (problem === null) {
        saveBindings(localStorage, bindings);
    }

    waitsFor = null;
    text(at("keys-said"), problem
        ? say(`Keys.${problem.word}`, problem.action ? say(`Action.${problem.action}`) : "")
        : say(word, say(`Action.${action}`)));
    paint();
    at(`add-${action}`).focus();
}

function paintSound() {
    at("sound-on").checked = !player.sound.isMuted;
    at("sound-volume").value = String(Math.round(player.sound.volume * 100));
    at("sound-spoken").checked = player.sound.isSpoken;
}

async function soundChanged() {
    player.sound = {
        isMuted: !at("sound-on").checked,
        volume: Number(at("sound-volume").value) / 100,
        isSpoken: at("sound-spoken").checked,
    };
    writeSound(localStorage, player.sound);
    await player.allow();
    player.play("accepted");
    player.say(say("Sound.Example"), document.documentElement.lang);
}

document.addEventListener("keydown", (event) => {
    if (waitsFor === null || event.repeat || ["ShiftLeft", "ShiftRight"].includes(event.code)) {
        return;
    }

    event.preventDefault();
    const action = waitsFor;
    const pressed = { code: event.code, key: event.key };
    changed(addKey(bindings, action, pressed), "Keys.Added", action);
});
at("keys-reset").addEventListener("click", () => {
    saveBindings(localStorage, null);
    bindings = loadBindings(localStorage);
    waitsFor = null;
    text(at("keys-said"), say("Keys.WereReset"));
    paint();
});
["sound-on", "sound-volume", "sound-spoken"].forEach((id) => at(id).addEventListener("change", soundChanged));
at("face-light").checked = document.documentElement.dataset.face === "light";
at("face-light").addEventListener("change", () => {
    const face = at("face-light").checked ? "light" : "dark";
    document.cookie = `lane-face=${face}; path=/; max-age=31536000; samesite=strict`;
    document.documentElement.dataset.face = face;
});
list(at("sound-try"), tones, "li", (item, tone) => {
    const button = make("button", say(`Tone.${tone}`));
    button.type = "button";
    button.addEventListener("click", async () => {
        await player.allow();
        player.play(tone);
    });
    item.append(button);
});
paint();
paintSound();
