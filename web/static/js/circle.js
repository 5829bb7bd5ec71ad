// The sweep circle as the operator sees it: front at the bottom, column behind.
// Places come in their order around the circle, anticlockwise from the first.

import { rebuild, svg } from "./dom.js";

const CENTRE = { x: 320, y: 300 };
const RADIUS = 186;
const BOX = { w: 232, h: 104 };
const EDGE = 9; // between a word and the side of its box
const WORD = { next: "next", parked: "gauge here" };

export function drawCircle(node, places) {
  if (rebuild(node, places, () => [picture(places)])) node.querySelectorAll(".station text").forEach(fit);
}

// What a wide font makes too long for its box is set smaller.
function fit(words) {
  const excess = words.getComputedTextLength() / (BOX.w - 2 * EDGE);
  if (excess > 1) words.style.fontSize = `${Number.parseFloat(getComputedStyle(words).fontSize) / excess}px`;
}

function picture(places) {
  const root = svg("svg", { viewBox: "0 0 640 600", role: "img", "aria-label": inWords(places) });
  root.append(table(), ring(), ...places.map((place, i) => station(place, i, places.length)));
  return root;
}

function inWords(places) {
  return places
    .map((place) => `${place.say}: ${[was(place) || "no reading", WORD[place.state]].filter(Boolean).join(", ")}`)
    .join("; ");
}

// What a spot read before it is to be read again is no reading of now.
function was(place) {
  return place.value && place.state === "next" ? `was ${place.value}` : place.value;
}

function table() {
  const slots = [196, 300, 404].map((y) => svg("path", { d: `M14 ${y - 5}H626M14 ${y + 5}H626`, class: "slot" }));
  return svg("g", { class: "table", "aria-hidden": "true" },
    svg("rect", { x: 14, y: 122, width: 612, height: 356, rx: 6, class: "top" }),
    ...slots,
    svg("path", { d: "M220 4H420V40H220Z", class: "column" }),
    text(320, 31, "column", "where"),
    text(320, 586, "you stand here", "where"));
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

function station(place, index, count) {
  const turn = ((90 - (index * 360) / count) * Math.PI) / 180;
  const x = CENTRE.x + RADIUS * Math.cos(turn);
  const y = CENTRE.y + RADIUS * Math.sin(turn);
  const word = WORD[place.state];
  const value = was(place) || word || "–";
  const kind = !place.value ? "word" : place.state === "next" ? "was" : "value";
  const tab = place.value && word ? word : "";
  return svg("g", { class: "station", "data-state": place.state, "data-place": place.position, "aria-hidden": "true" },
    svg("rect", { x: x - BOX.w / 2, y: y - BOX.h / 2, width: BOX.w, height: BOX.h, rx: 14 }),
    ...(tab ? [svg("rect", { x: x - BOX.w / 2, y: y - 76, width: BOX.w, height: 36, rx: 8, class: "tab" }), text(x, y - 50, tab, "tab-word")] : []),
    text(x, y - 12, place.say, "label"),
    text(x, y + 38, value, kind));
}

function text(x, y, words, kind) {
  return svg("text", { x, y, class: kind, "text-anchor": "middle" }, words);
}
