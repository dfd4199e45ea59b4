// A tick on the list of what to fetch is kept at once, without leaving the page.
import { send } from "./send.js";

for (const form of document.querySelectorAll("form[data-ticks]")) {
  const keep = form.querySelector("[data-keep]");
  const line = form.querySelector("[data-found]");
  const boxes = [...form.querySelectorAll("input[name=found]")];
  keep.hidden = true;
  let waiting = Promise.resolve();
  let changes = 0;
  form.addEventListener("change", () => {
    line.textContent = `${boxes.filter((box) => box.checked).length} of ${boxes.length} found.`;
    const body = new FormData(form);
    const number = (changes += 1);
    form.dataset.kept = "no";
    // One after another, so that the last tick is what stays; if it fails, the button is there.
    waiting = waiting
      .then(() => send(form.action, body))
      .then((answer) => {
        keep.hidden = answer.ok;
        if (number === changes && answer.ok) form.dataset.kept = "yes";
      })
      .catch(() => {
        keep.hidden = false;
      });
  });
}
