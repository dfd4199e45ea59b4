// Move the corners, doors and things of a room on its drawing, by pointer or by arrow key.
// The numbers of the form are what counts: a move fills them in, and Store sends them.
const STEP_M = 0.05;
const LARGE_M = 0.5;
const CM = 100;
const GRIP_PX = 9;
const HIT_PX = 22;
const FURTHEST_M = 200;
const KEYS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

const figure = document.querySelector(".room-editor");
const svg = figure.querySelector("svg");
const live = figure.querySelector(".room-live");
const zero = { x: Number(figure.dataset.left), y: Number(figure.dataset.high) };
const rows = [...document.querySelectorAll("[data-handle]")];

const toX = (x) => zero.x + CM * x;
const toY = (y) => zero.y - CM * y;
const snapped = (value) => Math.round(value / STEP_M) * STEP_M;
const within = (value) => Math.min(FURTHEST_M, Math.max(0, value));
const written = (value) => String(Number(value.toFixed(3)));

function make(name, attributes, parent) {
  const node = document.createElementNS(svg.namespaceURI, name);
  for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, value);
  parent.append(node);
  return node;
}

class Handle {
  constructor(row, layer) {
    const { handle, name, shape, wide, deep } = row.dataset;
    [this.along, this.across] = row.querySelectorAll("input[type=text]");
    Object.assign(this, { key: handle, name, shape, wide: Number(wide), deep: Number(deep) });
    if (shape === "middle" || shape === "box") {
      this.ghost = make("rect", { class: "room-ghost", width: CM * this.wide, height: CM * this.deep }, layer);
    }
    this.node = make("g", { class: "room-handle", tabindex: "0", role: "button" }, layer);
    this.hit = make("circle", { class: "room-hit" }, this.node);
    this.grip = shape === "corner" || shape === "door"
      ? make("circle", { class: "room-grip" }, this.node)
      : make("rect", { class: "room-grip" }, this.node);
    this.node.addEventListener("keydown", (event) => this.press(event));
    this.node.addEventListener("pointerdown", (event) => this.take(event));
    this.node.addEventListener("pointermove", (event) => this.drag(event));
    for (const over of ["pointerup", "pointercancel"]) {
      this.node.addEventListener(over, () => this.letGo());
    }
    for (const input of [this.along, this.across]) input.addEventListener("input", draw);
  }

  // Where it is, by the form; null while a number is being typed.
  get point() {
    const [x, y] = [this.along, this.across].map((input) => Number(input.value.trim() || NaN));
    return Number.isFinite(x) && Number.isFinite(y) ? [x, y] : null;
  }

  get isOnWall() {
    return this.shape === "door" || this.shape === "start" || this.shape === "end";
  }

  moveTo(x, y) {
    const [nearX, nearY] = this.isOnWall ? onNearestWall(x, y) : [snapped(x), snapped(y)];
    this.along.value = written(within(nearX));
    this.across.value = written(within(nearY));
    draw();
    live.textContent = `${this.name}: ${this.along.value} m along, ${this.across.value} m across.`;
  }

  press(event) {
    const way = KEYS[event.key];
    const from = this.point;
    if (!way || !from || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    const step = event.shiftKey ? LARGE_M : STEP_M;
    this.moveTo(from[0] + step * way[0], from[1] + step * way[1]);
  }

  take(event) {
    const from = this.point;
    if (event.button !== 0 || !from) return;
    event.preventDefault();
    this.node.focus();
    this.node.setPointerCapture(event.pointerId);
    this.node.classList.add("is-held");
    const at = place(event);
    this.held = [from[0] - at[0], from[1] - at[1]];
  }

  drag(event) {
    if (!this.held) return;
    const at = place(event);
    this.moveTo(at[0] + this.held[0], at[1] + this.held[1]);
  }

  letGo() {
    this.held = null;
    this.node.classList.remove("is-held");
  }

  draw(unit) {
    const point = this.point;
    this.node.setAttribute("display", point ? "inline" : "none");
    if (!point) return;
    const [x, y] = [toX(point[0]), toY(point[1])];
    set(this.hit, { cx: x, cy: y, r: HIT_PX * unit });
    const grip = GRIP_PX * unit;
    set(this.grip, this.grip.tagName === "circle"
      ? { cx: x, cy: y, r: grip }
      : { x: x - grip, y: y - grip, width: 2 * grip, height: 2 * grip });
    if (this.ghost) {
      const shift = this.shape === "middle" ? [this.wide / 2, this.deep / 2] : [0, this.deep];
      const lower = this.shape === "middle" ? shift[1] : this.deep;
      set(this.ghost, { x: x - CM * shift[0], y: y - CM * lower });
    }
    this.node.setAttribute(
      "aria-label", `${this.name}, ${this.along.value} m along, ${this.across.value} m across. Move with the arrow keys.`,
    );
  }
}

function set(node, attributes) {
  for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, value);
}

// Metres in the room from a place on the screen.
function place(event) {
  const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
  return [(at.x - zero.x) / CM, (zero.y - at.y) / CM];
}

function corners() {
  return handles.filter((handle) => handle.shape === "corner").map((handle) => handle.point);
}

function onNearestWall(x, y) {
  const round = corners().filter(Boolean);
  let best = [x, y];
  let least = Infinity;
  round.forEach(([x1, y1], index) => {
    const [x2, y2] = round[(index + 1) % round.length];
    const long = Math.hypot(x2 - x1, y2 - y1);
    if (!long) return;
    const far = ((x - x1) * (x2 - x1) + (y - y1) * (y2 - y1)) / long;
    const along = Math.min(long, Math.max(0, snapped(far)));
    const near = [x1 + (along / long) * (x2 - x1), y1 + (along / long) * (y2 - y1)];
    const off = Math.hypot(near[0] - x, near[1] - y);
    if (off < least) [best, least] = [near, off];
  });
  return best;
}

const layer = make("g", { class: "room-layer" }, svg);
const outline = make("polygon", {}, layer);
const handles = rows.map((row) => new Handle(row, layer));

function draw() {
  const unit = svg.viewBox.baseVal.width / (svg.getBoundingClientRect().width || 1);
  const round = corners();
  if (round.every(Boolean)) {
    outline.setAttribute("points", round.map(([x, y]) => `${toX(x)},${toY(y)}`).join(" "));
  }
  for (const handle of handles) handle.draw(unit);
}

figure.querySelector(".room-help").hidden = false;
addEventListener("resize", draw);
draw();
