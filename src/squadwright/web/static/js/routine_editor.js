// The editor of a routine: a few letters choose an exercise, Enter goes on, and what is said of
// the routine follows the typing. Every button is one of the form's own, so it all works without.
import { send } from "./send.js";

const PAUSE_MS = 300;
const MOST_SHOWN = 6;
const editor = document.getElementById("editor");
const list = document.createElement("ul");
list.className = "suggestions";
list.id = "suggestions";
list.setAttribute("role", "listbox");
list.setAttribute("aria-label", "Exercises");
let names = [];
let shownFor = null;
let waiting = 0;
let asking = null;

const storing = () => editor.querySelector(".editor-store button");
const form = () => editor.querySelector("form.editor");
const words = (text) => text.toLowerCase().replace(/[-,]/g, " ").split(/\s+/).filter(Boolean);

function prepare() {
  names = [...editor.querySelectorAll("#exercise-names option")].map((option, place) => ({
    name: option.value,
    words: words(option.value),
    hasBar: option.hasAttribute("data-bar"),
    place,
  }));
  for (const input of editor.querySelectorAll(".step-exercise")) asCombobox(input);
}

function asCombobox(input) {
  // The browser's own list would lie over ours.
  input.removeAttribute("list");
  input.setAttribute("role", "combobox");
  input.setAttribute("aria-autocomplete", "list");
  input.setAttribute("aria-expanded", "false");
}

// The rule of squadwright.library.search: the typed words begin words of the name, in order.
function beginsAt(each, wanted) {
  let first = -1;
  let from = 0;
  for (const word of wanted) {
    const at = each.words.findIndex((one, place) => place >= from && one.startsWith(word));
    if (at < 0) return -1;
    if (first < 0) first = at;
    from = at + 1;
  }
  return first;
}

function matching(typed, barFirst) {
  const wanted = words(typed);
  if (!wanted.length) return [];
  return names
    .map((each) => ({ each, at: beginsAt(each, wanted) }))
    .filter((found) => found.at >= 0)
    .map(({ each, at }) => ({
      each,
      key: [Number(barFirst && !each.hasBar), at, each.name.length, each.place],
    }))
    .sort((a, b) => a.key.reduce((found, value, at) => found || value - b.key[at], 0))
    .map((found) => found.each.name);
}

function suggest(input) {
  const style = input.closest(".editor-block").querySelector("input[type=radio]:checked");
  const found = matching(input.value, style?.value === "complex").slice(0, MOST_SHOWN);
  if (!found.length || found[0] === input.value) return close();
  shownFor = input;
  list.replaceChildren(
    ...found.map((name, at) => {
      const item = document.createElement("li");
      item.id = `suggestion-${at}`;
      item.setAttribute("role", "option");
      item.textContent = name;
      return item;
    }),
  );
  input.after(list);
  list.hidden = false;
  input.setAttribute("aria-expanded", "true");
  input.setAttribute("aria-controls", list.id);
  mark(0);
}

function mark(at) {
  [...list.children].forEach((item, place) =>
    item.setAttribute("aria-selected", String(place === at)),
  );
  shownFor.setAttribute("aria-activedescendant", `suggestion-${at}`);
}

const marked = () => [...list.children].findIndex((x) => x.getAttribute("aria-selected") === "true");

function close() {
  list.hidden = true;
  list.remove();
  if (shownFor) {
    shownFor.setAttribute("aria-expanded", "false");
    shownFor.removeAttribute("aria-controls");
    shownFor.removeAttribute("aria-activedescendant");
  }
  shownFor = null;
}

function take(input, name) {
  input.value = name;
  close();
  checkSoon();
}

function rowAfter(row) {
  if (row.nextElementSibling) return row.nextElementSibling;
  const block = row.parentElement;
  if (block.children.length >= Number(block.dataset.most)) return null;
  const at = `${block.dataset.block}-s${block.children.length}-`;
  const empty = editor.querySelector("#empty-row").content.querySelector(".step-row");
  const made = document.importNode(empty, true);
  for (const each of [made, ...made.querySelectorAll("*")])
    for (const { name, value } of [...each.attributes])
      if (value.includes("bX-sY-")) each.setAttribute(name, value.replaceAll("bX-sY-", at));
  block.append(made);
  asCombobox(made.querySelector(".step-exercise"));
  return made;
}

function goOn(row) {
  const next = rowAfter(row);
  (next?.querySelector(".step-exercise") ?? storing()).focus();
}

function onEnter(event, input) {
  const row = input.closest(".step-row");
  event.preventDefault();
  if (input.classList.contains("step-exercise")) {
    if (shownFor === input) take(input, list.children[Math.max(0, marked())].textContent);
    if (input.value.trim()) goOn(row);
    else storing().focus();
  } else if (row) {
    goOn(row);
  } else {
    const fields = [...form().querySelectorAll("input:not([type=hidden], [type=radio]), select")];
    fields
      .slice(fields.indexOf(input) + 1)
      .find((field) => field.checkVisibility())
      ?.focus();
  }
}

function onKey(event) {
  const input = event.target;
  if (input.tagName !== "INPUT" || input.type !== "text" || event.isComposing) return;
  if (event.key === "Enter") return onEnter(event, input);
  if (shownFor !== input) return;
  const last = list.children.length - 1;
  if (event.key === "ArrowDown" || event.key === "ArrowUp") {
    event.preventDefault();
    const to = marked() + (event.key === "ArrowDown" ? 1 : -1);
    mark(to > last ? 0 : to < 0 ? last : to);
  } else if (event.key === "Escape") {
    close();
  } else if (event.key === "Tab") {
    take(input, list.children[Math.max(0, marked())].textContent);
  }
}

function checkSoon() {
  clearTimeout(waiting);
  waiting = setTimeout(check, PAUSE_MS);
}

async function check() {
  asking?.abort();
  asking = new AbortController();
  try {
    const answer = await send("/routines/check", new FormData(form()), asking.signal);
    if (!answer.ok) return;
    const said = await answer.json();
    keepingOpen(editor.querySelector("#checks"), said.checks);
    showUsual(said.usual);
  } catch (error) {
    if (error.name !== "AbortError") tell("The site does not answer. What is typed is still here.");
  }
}

// A "why" that was opened stays open.
function keepingOpen(place, html) {
  const open = new Set(
    [...place.querySelectorAll("details")].flatMap((each, at) => (each.open ? [at] : [])),
  );
  const said = new DOMParser().parseFromString(html, "text/html");
  place.replaceChildren(...said.body.childNodes);
  place.querySelectorAll("details").forEach((each, at) => (each.open = open.has(at)));
}

function showUsual(usual) {
  for (const [name, value] of Object.entries(usual)) {
    const field = form().elements.namedItem(name);
    if (field?.tagName === "SELECT") field.options[0].textContent = value;
    else if (field) field.placeholder = value;
  }
}

function tell(text) {
  editor.querySelector(".checks-line").textContent = text;
}

// A button other than "store": the form comes back changed, and the page stays where it is.
async function onSubmit(event) {
  const button = event.submitter;
  if (!button || button.value === "save") return;
  event.preventDefault();
  asking?.abort();
  clearTimeout(waiting);
  const body = new FormData(form());
  body.set("do", button.value);
  let answer;
  try {
    answer = await send(form().getAttribute("action"), body);
  } catch {
    return tell("The site does not answer. What is typed is still here.");
  }
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const changed = page.getElementById("editor");
  if (!changed) return tell("The site could not do that. What is typed is still here.");
  close();
  editor.replaceChildren(...changed.childNodes);
  prepare();
  editor.querySelector("[autofocus]")?.focus();
}

editor.addEventListener("keydown", onKey);
editor.addEventListener("submit", onSubmit);
editor.addEventListener("input", (event) => {
  if (event.target.classList.contains("step-exercise")) suggest(event.target);
  checkSoon();
});
editor.addEventListener("focusout", (event) => {
  if (event.target === shownFor) close();
});
// A tap on a name must not take the focus, and so the keyboard of a phone, away first.
editor.addEventListener("pointerdown", (event) => {
  if (event.target.closest(".suggestions")) event.preventDefault();
});
editor.addEventListener("mousedown", (event) => {
  if (event.target.closest(".suggestions")) event.preventDefault();
});
editor.addEventListener("click", (event) => {
  const item = event.target.closest(".suggestions li");
  if (!item) return;
  const input = shownFor;
  take(input, item.textContent);
  goOn(input.closest(".step-row"));
});
prepare();
