// Copies the chart text by one key or by its button. Without a script the text can be marked and copied as any other.

const told = document.getElementById("copied");

async function copy(source) {
  const text = source.textContent;
  try {
    await navigator.clipboard.writeText(text);
  } catch {
    // A browser that keeps the clipboard from pages: the text is marked, so that its own copy key does the rest.
    const range = document.createRange();
    range.selectNodeContents(source);
    const selection = window.getSelection();
    selection.removeAllRanges();
    selection.addRange(range);
    if (!document.execCommand("copy")) {
      told.textContent = told.dataset.marked;
      return;
    }
  }
  told.textContent = told.dataset.done;
}

const buttons = [...document.querySelectorAll("button[data-copies]")];
for (const button of buttons) {
  button.hidden = false;
  button.addEventListener("click", () => copy(document.getElementById(button.dataset.copies)));
}

document.addEventListener("keydown", (event) => {
  const isTyping = event.target.closest("input, textarea, select");
  if (isTyping || event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
  const button = buttons.find((one) => one.dataset.key === event.key.toLowerCase());
  if (button) {
    event.preventDefault();
    copy(document.getElementById(button.dataset.copies));
  }
});
