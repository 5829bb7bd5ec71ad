// The verdict on the wall: each axis on a bar that stands the way the axis goes, side to side lying
// and nod upright, as found joined to as left; what is kept free inside the limit reaches to both
// sides of the mark, so that too close to call is seen to lie across the line. Of another check, a
// line for each thing that came out.

import { el, rebuild, svg } from "./dom.js";
import { words } from "./words.js";

const LIMIT = 30; // of a bar's half length of 90: three limits
const END = 86;

export function drawVerdictOnWall(node, { picture, axes, circle }) {
  const shown = picture === "verdict" ? axes.filter((axis) => axis.value) : [];
  // What does not fit goes from the end: of another check what is outside stands first.
  if (!shown[0]?.axis) shown.sort((one, other) => (other.word === "out") - (one.word === "out"));
  rebuild(node, [shown, circle.length], () => shown.length ? [...drawing(shown), figures(shown)] : []);
}

function drawing(axes) {
  const known = axes.filter((axis) => axis.axis);
  if (!known.length) return [];
  return [svg("svg", { class: "verdict-drawn", viewBox: "-100 -100 220 200", role: "img", "aria-label": inWords(known) },
    ...known.map(bar))];
}

function inWords(axes) {
  return axes.map((axis) => [axis.say, axis.value, words.called[axis.word]].filter(Boolean).join(" ")).join("; ");
}

function bar(axis) {
  const upright = axis.axis === "nod";
  const held = (zone) => Math.max(-END, Math.min(END, zone * LIMIT));
  const at = held(axis.zone ?? 0);
  const [least, most] = [axis.only === "high" ? 0 : -LIMIT, axis.only === "low" ? 0 : LIMIT];
  const marks = [
    svg("rect", { x: -90, y: -10, width: 180, height: 20, class: "track" }),
    svg("rect", { x: least, y: -10, width: most - least, height: 20, class: "zone" }),
    svg("path", { d: `M${least} -15V15M${most} -15V15`, class: "line" }),
  ];
  if (axis.found !== null) {
    const from = held(axis.found);
    marks.push(svg("path", { d: `M${from} 0L${at} 0`, class: "joined" }), svg("circle", { cx: from, cy: 0, r: 6, class: "found" }));
  }
  if (axis.doubt) {
    const [low, high] = [-1, 1].map((way) => held((axis.zone ?? 0) + way * axis.doubt));
    marks.push(svg("path", { d: `M${low} 0H${high}M${low} -7V7M${high} -7V7`, class: "whisker" }));
  }
  marks.push(mark(at, axis.word));
  // The front is at the bottom, as on the circle: there more of it is low.
  const place = upright ? "translate(95 0) rotate(90)" : "translate(-10 84)";
  return svg("g", { class: "bar-of", "data-axis": axis.axis, "data-word": axis.word || "unknown", transform: place }, ...marks);
}

function mark(at, word) {
  if (word === "in") return svg("circle", { cx: at, cy: 0, r: 9, class: "mark" });
  const shape = word === "out" ? "M0 -12L12 0L0 12L-12 0Z" : "M-5 -12H5V12H-5Z";
  return svg("path", { d: shape, transform: `translate(${at} 0)`, class: "mark" });
}

function figures(axes) {
  const lines = axes.map(figure);
  for (const line of lines) line.classList.add("narrow");
  return el("ul", { class: "figures" }, ...lines);
}

function figure(axis) {
  return el("li", { class: "axis", "data-axis": axis.axis || null, "data-word": axis.word || "unknown" },
    el("span", {}, axis.say, " "),
    el("span", { class: "reading" }, axis.value, " "),
    axis.axis ? el("span", { class: "low" }, axis.low) : null,
    axis.word ? el("strong", { class: "word" }, el("span", { class: "sign", "aria-hidden": "true" }), words.called[axis.word]) : null);
}
