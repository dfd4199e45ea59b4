// On every page: work that takes longer than half a second shows that it is going on, a form is
// sent once even if its button is pressed twice, and a refused form is read out at once.
const PATIENCE_MS = 500;

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (event.defaultPrevented || form.method !== "post") return;
  if (form.dataset.sent) {
    event.preventDefault();
    return;
  }
  form.dataset.sent = "yes";
  const line = document.getElementById("at-work");
  setTimeout(() => {
    line.hidden = false;
    line.querySelector("p").textContent = form.dataset.working || "Working on it";
  }, PATIENCE_MS);
});

// A page that comes back from the browser's memory may be sent again.
addEventListener("pageshow", () => {
  document.getElementById("at-work").hidden = true;
  for (const form of document.forms) delete form.dataset.sent;
});

document.querySelector(".form-wrong")?.focus();
