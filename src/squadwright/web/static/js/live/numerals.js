// Digits drawn as seven bars each: the same width for every digit and an exact height, whatever
// fonts the device has. What they say stands beside them in words for those who listen.
const WIDTH = 56;
const HEIGHT = 100;
const GAP = 14;
const COLON = 22;
const BARS = {
  a: "3,0 53,0 38,15 18,15",
  b: "56,3 56,48.5 41,42.5 41,18",
  c: "56,51.5 56,97 41,82 41,57.5",
  d: "3,100 53,100 38,85 18,85",
  e: "0,51.5 0,97 15,82 15,57.5",
  f: "0,3 0,48.5 15,42.5 15,18",
  g: "4,50 17,43 39,43 52,50 39,57 17,57",
};
const DIGITS = ["abcdef", "bc", "abged", "abgcd", "fgbc", "afgcd", "afgedc", "abc", "abcdefg", "abcdfg"];

function shape(svg, name, attributes) {
  const made = document.createElementNS(svg.namespaceURI, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

// Draws "12:05" into an svg element; only what has changed is touched.
export function drawNumerals(svg, text) {
  if (svg.dataset.text === text) return;
  svg.dataset.text = text;
  const shaped = text.replace(/[0-9]/g, "0");
  if (svg.dataset.shaped !== shaped) layOut(svg, shaped);
  [...text].forEach((sign, at) => {
    const group = svg.children[at];
    if (sign === ":") return;
    const lit = DIGITS[Number(sign)];
    for (const bar of group.children) {
      bar.classList.toggle("lit", lit.includes(bar.dataset.bar));
    }
  });
}

function layOut(svg, shaped) {
  svg.dataset.shaped = shaped;
  svg.replaceChildren();
  let x = 0;
  for (const sign of shaped) {
    const group = shape(svg, "g", { transform: `translate(${x} 0)` });
    if (sign === ":") {
      for (const y of [30, 70]) {
        group.append(shape(svg, "circle", { cx: COLON / 2, cy: y, r: 8, class: "lit" }));
      }
      x += COLON + GAP;
    } else {
      for (const [bar, points] of Object.entries(BARS)) {
        const drawn = shape(svg, "polygon", { points });
        drawn.dataset.bar = bar;
        group.append(drawn);
      }
      x += WIDTH + GAP;
    }
    svg.append(group);
  }
  svg.setAttribute("viewBox", `0 0 ${x - GAP} ${HEIGHT}`);
}
