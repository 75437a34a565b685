// Small ways to change the page: only what is different, and only as text.

/** An element by its id. */
export const at = (id) => document.getElementById(id);

/** Makes an element with text and classes. */
export function make(tag, text = "", classes = "") {
    const element = document.createElement(tag);
    element.textContent = text;
    if (classes) {
        element.className = classes;
    }

    return element;
}

/** Sets the text if it is another one. */
export function text(element, value) {
    if (element.textContent !== value) {
        element.textContent = value;
    }
}

/** Shows or hides. */
export function show(element, isShown) {
    if (element.hidden === isShown) {
        element.hidden = !isShown;
    }
}

/** Sets a data attribute if it is another one, for the style sheet. */
export function mark(element, name, value) {
    if (element.dataset[name] !== value) {
        element.dataset[name] = value;
    }
}

/**
 * Makes the children of a list fit items: each item has a key, and a child is made anew only when its key or its signature changed.
 * @param fill Fills a fresh child for an item.
 */
export function list(element, items, tag, fill) {
    items.forEach((item, index) => {
        const signature = JSON.stringify(item);
        const old = element.children[index];
        if (old?.dataset.signature === signature) {
            return;
        }

        const fresh = document.createElement(tag);
        fresh.dataset.signature = signature;
        fill(fresh, item);
        if (old) {
            old.replaceWith(fresh);
        } else {
            element.append(fresh);
        }
    });
    while (element.children.length > items.length) {
        element.lastElementChild.remove();
    }
}

/** Fills a list with plain lines and hides it while it is empty. */
export function lines(element, items) {
    list(element, items, "li", (line, item) => line.append(item));
    show(element, items.length > 0);
}
