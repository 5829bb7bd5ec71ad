// The sweep circle as the operator sees it: front at the bottom, column behind.
// It draws the places it is given, each where it lies; those at the corners of the
// table take room from the sides, so with any of them all boxes are narrower.

import { rebuild, svg } from "./dom.js";
import { words } from "./words.js";

const CENTRE = { x: 320, y: 300 };
const RADIUS = 186;
// How many steps to the right of the centre and toward the column each place lies.
const LIES = {
  "front": [0, -1], "front-right": [1, -1], "right": [1, 0], "back-right": [1, 1],
  "back": [0, 1], "back-left": [-1, 1], "left": [-1, 0], "front-left": [-1, -1],
};
const ROOM = { axes: { aside: RADIUS, width: 232 }, corners: { aside: 212, width: 196 } };
const HEIGHT = 104;
const EDGE = 9; // between a word and the side of its box
const WORD = { next: words.next, parked: words.parked };

export function drawCircle(node, places) {
  if (rebuild(node, places, () => [picture(places)])) node.querySelectorAll(".station text").forEach(fit);
}

// What a wide font makes too long for its box is set narrower, and stays as high.
function fit(line) {
  const room = line.parentNode.querySelector("rect").width.baseVal.value - 2 * EDGE;
  const excess = line.getComputedTextLength() / room;
  if (excess > 1) line.style.transform = `scaleX(${1 / excess})`;
}

function picture(places) {
  const root = svg("svg", { viewBox: "0 0 640 600", role: "img", "aria-label": inWords(places) });
  const corners = places.some((place) => LIES[place.position].every(Boolean));
  const room = corners ? ROOM.corners : ROOM.axes;
  root.append(table(), ring(), ...places.map((place) => station(place, room)));
  return root;
}

function inWords(places) {
  return places
    .map((place) => `${place.say}: ${[place.age, place.value || words.no_reading, WORD[place.state]].filter(Boolean).join(", ")}`)
    .join("; ");
}

function table() {
  const slots = [196, 300, 404].map((y) => svg("path", { d: `M14 ${y - 5}H626M14 ${y + 5}H626`, class: "slot" }));
  return svg("g", { class: "table", "aria-hidden": "true" },
    svg("rect", { x: 14, y: 122, width: 612, height: 356, rx: 6, class: "top" }),
    ...slots,
    svg("path", { d: "M220 4H420V40H220Z", class: "column" }),
    text(320, 31, words.column, "where"),
    text(320, 586, words.you, "where"));
}

function ring() {
  const ticks = [];
  for (let degree = 0; degree < 360; degree += 10) {
    const turn = (degree * Math.PI) / 180;
    const [outer, inner] = [RADIUS + 2, RADIUS - (degree % 30 ? 10 : 18)];
    ticks.push(`M${CENTRE.x + outer * Math.cos(turn)} ${CENTRE.y + outer * Math.sin(turn)}` +
      `L${CENTRE.x + inner * Math.cos(turn)} ${CENTRE.y + inner * Math.sin(turn)}`);
  }
  return svg("g", { class: "ring", "aria-hidden": "true" },
    svg("circle", { cx: CENTRE.x, cy: CENTRE.y, r: RADIUS }),
    svg("path", { d: ticks.join("") }),
    svg("path", { d: `M${CENTRE.x - 16} ${CENTRE.y}h32M${CENTRE.x} ${CENTRE.y - 16}v32` }));
}

function station(place, { aside, width }) {
  const [right, back] = LIES[place.position];
  const x = CENTRE.x + right * aside;
  const y = CENTRE.y - back * RADIUS;
  const word = WORD[place.state];
  const tab = place.value && word ? word : "";
  const lines = place.age
    ? [text(x, y - 14, place.say, "small"), text(x, y + 11, place.age, "age"), text(x, y + 44, place.value, "was")]
    : [text(x, y - 12, place.say, "label"), text(x, y + 38, place.value || word || "–", place.value ? "value" : "word")];
  return svg("g", { class: "station", "data-state": place.state, "data-place": place.position, "aria-hidden": "true" },
    svg("rect", { x: x - width / 2, y: y - HEIGHT / 2, width, height: HEIGHT, rx: 14 }),
    ...(tab ? [svg("rect", { x: x - width / 2, y: y - 76, width, height: 34, rx: 8, class: "tab" }), text(x, y - 50, tab, "tab-word")] : []),
    ...lines);
}

function text(x, y, say, kind) {
  return svg("text", { x, y, class: kind, "text-anchor": "middle" }, say);
}
