// Shows on a page that stands open, with something half typed in it perhaps, that the session will end. After signing in in another tab it
// is taken away: forms of this page are then good again.

import { Ending } from "../lane/ending.js";

const told = document.getElementById("session-ending");

if (told) {
  const ending = new Ending(Number(told.dataset.seconds), performance.now());
  const show = () => {
    told.hidden = ending.minutes(performance.now()) === null;
  };

  const ask = async () => {
    const answer = await fetch("/api/v1/session", { cache: "no-store" });
    const { secondsLeft } = await answer.json();
    if (typeof secondsLeft === "number") {
      ending.take(secondsLeft, performance.now());
      show();
    }
  };

  setInterval(show, 5000);
  addEventListener("focus", () => ask().catch(() => {}));
}
