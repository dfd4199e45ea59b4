// A slider beside each number: what the model expects moves while it is dragged. The numbers of the
// form are what is asked; without scripts its button asks for the same page.
const PAUSE_MS = 40;
const TELL_MS = 700;

const form = document.querySelector("[data-what-if]");
const headline = document.querySelector("[data-headline]");
const details = document.querySelector("[data-details]");
const told = document.querySelector("[data-told]");
const trouble = document.querySelector("[data-trouble]");
const show = document.querySelector("[data-show]");

let pausing = 0;
let telling = 0;
let asking = null;

const movable = [...form.querySelectorAll("[data-movable]")];
movable.forEach(addSlider);
show.hidden = true;
form.addEventListener("submit", (event) => {
  event.preventDefault();
  ask();
});

function addSlider(part) {
  const number = part.querySelector("input");
  const { label, low, high, step } = part.dataset;
  const slider = Object.assign(document.createElement("input"), {
    type: "range",
    min: low,
    max: high,
    step,
    className: "what-if-slider",
  });
  slider.setAttribute("aria-label", `${label}, slider`);
  const follow = () => {
    if (number.value.trim() !== "" && Number.isFinite(Number(number.value))) {
      slider.value = number.value;
    }
  };
  follow();
  slider.addEventListener("input", () => {
    number.value = String(Number(slider.value));
    askSoon();
  });
  number.addEventListener("input", () => {
    follow();
    askSoon();
  });
  part.querySelector(".field-number").append(slider);
}

function askSoon() {
  clearTimeout(pausing);
  pausing = setTimeout(ask, PAUSE_MS);
}

// The latest question wins: an older one that is still under way is given up.
async function ask() {
  clearTimeout(pausing);
  asking?.abort();
  const mine = (asking = new AbortController());
  const query = new URLSearchParams(new FormData(form));
  try {
    const answer = await fetch(`${form.getAttribute("action")}/answer?${query}`, {
      signal: mine.signal,
      credentials: "same-origin",
      headers: { Accept: "application/json" },
    });
    const parts = await answer.json();
    if (mine !== asking) return;
    put(headline, parts.headline);
    put(details, parts.details);
    for (const part of movable) mark(part, parts.wrong[part.dataset.movable]);
    form.dataset.answered = query.toString();
    history.replaceState(null, "", `${form.getAttribute("action")}?${query}`);
    trouble.hidden = show.hidden = true;
    clearTimeout(telling);
    telling = setTimeout(() => (told.textContent = parts.told), TELL_MS);
  } catch (error) {
    if (error.name === "AbortError") return;
    trouble.hidden = show.hidden = false;
  }
}

// What is wrong with a number stands beside it, as where the page came with it.
function mark(part, wrong) {
  const number = part.querySelector("input");
  const words = part.querySelector(".field-error");
  part.querySelector(".field").classList.toggle("field-wrong", Boolean(wrong));
  if (!wrong) {
    words?.remove();
    number.removeAttribute("aria-invalid");
    return;
  }
  number.setAttribute("aria-invalid", "true");
  const told = words ?? Object.assign(document.createElement("p"), { className: "field-error" });
  told.textContent = wrong;
  part.querySelector(".field").append(told);
}

function put(place, text) {
  const open = place.querySelector("details")?.open;
  const parsed = new DOMParser().parseFromString(text, "text/html");
  place.replaceChildren(...parsed.body.childNodes);
  const again = place.querySelector("details");
  if (again && open) again.open = true;
}
