// A piece of text with a name for the style sheet.
export function label(name, text) {
  const made = document.createElement("span");
  made.className = name;
  made.textContent = text;
  return made;
}
