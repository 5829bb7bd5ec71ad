// Both axes in their tolerance zone: a bar, a marker whose shape tells too, and words.

import { el, rebuild } from "./dom.js";
import { filled, words } from "./words.js";

const SPAN = 3; // the bar reaches this many limits to each side
const END = 2.7; // beyond this the marker stands at the end as an arrow

export function drawAxes(node, axes) {
  rebuild(node, axes, () => axes.map(row));
}

function row(axis) {
  const known = axis.value !== "";
  return el("div", { class: "axis", "data-axis": axis.axis, "data-word": axis.word || "unknown", "data-only": axis.only || null },
    el("h2", {}, axis.say, " ", el("strong", { class: "low" }, known ? axis.low : words.not_measured)),
    el("p", { class: "reading" }, axis.age ? el("span", { class: "age" }, axis.age, " ") : null, axis.value),
    axis.word ? el("p", { class: "word" }, el("span", { class: "sign", "aria-hidden": "true" }), words.called[axis.word]) : null,
    bar(axis),
    el("p", { class: "limit" }, axis.limit ? filled(axis.over ? words.allowed_over : words.allowed, axis) : ""),
    axis.note ? el("p", { class: "note" }, axis.note) : null);
}

function bar(axis) {
  const track = el("div", { class: "bar", "aria-hidden": "true" },
    el("span", { class: "zone" }), el("span", { class: "middle" }));
  if (axis.zone !== null && axis.zone !== undefined && axis.word !== "") {
    const held = Math.max(-END, Math.min(END, axis.zone));
    const shape = axis.zone > END ? "right" : axis.zone < -END ? "left" : axis.word;
    const marker = el("span", { class: "marker", "data-shape": shape });
    marker.style.left = `${50 + (held / SPAN) * 50}%`;
    track.append(marker);
  }
  return track;
}
