// A form that came back refused may stand far down its page: what is wrong comes into sight and takes the focus. Without a script the
// browser's own autofocus does a part of it.

const words = document.querySelector("main .problem[role=alert]");
const field = document.querySelector("main [aria-invalid=true]") ?? words?.closest("form")?.querySelector("[autofocus]");
const wrong = field ?? words;

if (wrong) {
  if (!field) {
    words.tabIndex = -1;
  }

  wrong.focus({ preventScroll: true });
  wrong.scrollIntoView({ block: "center" });
}
