// The keys of the lane as they are shown at its foot.

import { defaults, labelsOf } from "./bindings.js";
import { at, list, make } from "./dom.js";

/** The actions that grade. */
export const grades = ["grade0", "grade1", "grade2", "grade3", "grade4"];

/** What the legend shows, in its order: { labels, name }. */
export function legendOf(bindings, say, canSwitchOff) {
    const others = defaults
        .map((one) => one.action)
        .filter((action) => !grades.includes(action) && (action !== "switchOff" || canSwitchOff))
        .map((action) => ({ labels: labelsOf(bindings, action), name: say(`Action.${action}`) }));
    return [{ labels: gradeLabels(bindings), name: say("Action.grades") }, ...others].filter((one) => one.labels.length > 0);
}

/** Draws it. */
export function paintLegend(bindings, say, canSwitchOff) {
    list(at("legend"), legendOf(bindings, say, canSwitchOff), "li", (item, { labels, name }) => {
        item.append(...labels.map((label) => make("kbd", label)), make("span", name));
    });
}

/** The labels of the five grade keys, in short where they are the digits. */
export function gradeLabels(bindings) {
    const each = grades.map((grade) => labelsOf(bindings, grade));
    return each.every((labels, grade) => labels.length === 1 && labels[0] === String(grade)) ? ["0–4"] : each.flat();
}
