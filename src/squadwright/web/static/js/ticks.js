// A tick on the list of what to fetch is kept at once, without leaving the page.
import { send } from "./send.js";

for (const form of document.querySelectorAll("form[data-ticks]")) {
  const keep = form.querySelector("[data-keep]");
  const line = form.querySelector("[data-found]");
  const boxes = [...form.querySelectorAll("input[name=found]")];
  keep.hidden = true;
  let waiting = Promise.resolve();
  form.addEventListener("change", () => {
    line.textContent = `${boxes.filter((box) => box.checked).length} of ${boxes.length} found.`;
    const body = new FormData(form);
    // One after another, so that the last tick is what stays; if it fails, the button is there.
    waiting = waiting
      .then(() => send(form.action, body))
      .then((answer) => {
        keep.hidden = answer.ok;
      })
      .catch(() => {
        keep.hidden = false;
      });
  });
}
