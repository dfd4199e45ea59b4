// On every page: work that takes longer than half a second shows that it is going on, a form is
// sent once even if its button is pressed twice, and a refused form or a question is read out at once.
const PATIENCE_MS = 500;

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (event.defaultPrevented || form.method !== "post") return;
  if (form.dataset.sent) {
    event.preventDefault();
    return;
  }
  form.dataset.sent = "yes";
  showWork(form.dataset.working);
});

// A link to a page that may have to plan first says so as well.
document.addEventListener("click", (event) => {
  const link = event.target.closest("a[data-working]");
  if (!link || event.defaultPrevented || event.ctrlKey || event.metaKey || event.shiftKey) return;
  showWork(link.dataset.working);
});

function showWork(words) {
  const line = document.getElementById("at-work");
  setTimeout(() => {
    line.hidden = false;
    line.querySelector("p").textContent = words || "Working on it";
  }, PATIENCE_MS);
}

// A page that comes back from the browser's memory may be sent again.
addEventListener("pageshow", () => {
  document.getElementById("at-work").hidden = true;
  for (const form of document.forms) delete form.dataset.sent;
});

document.querySelector("main > .doubt, .form-wrong[role=alert]")?.focus();
