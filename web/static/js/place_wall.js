// Where the gauge is read, drawn to be seen across a shop: the places of the sweep as they lie, front
// at the bottom and the column behind, or how many stations of another check are read.

import { el, rebuild, svg } from "./dom.js";

const LIES = {
  "back-left": [1, 1], "back": [2, 1], "back-right": [3, 1],
  "left": [1, 2], "right": [3, 2],
  "front-left": [1, 3], "front": [2, 3], "front-right": [3, 3],
};

const SHORT = 2; // letters of a name that can be told apart on a bolt's head

export function drawPlaceOnWall(node, { picture, circle, stations, bolts }) {
  const makes = {
    circle: () => circle.length ? [spots(circle)] : [],
    stations: () => counted(stations),
    bolts: () => bolts?.order.length ? [heads(bolts)] : [],
  };
  const made = makes[picture] ?? (() => []);
  rebuild(node, [picture, circle, stations, bolts], made);
}

function spots(circle) {
  const aim = circle.find((spot) => spot.state === "next") ?? circle.find((spot) => spot.state === "parked");
  return el("div", { class: "spots" }, ring(aim), ...circle.map(spot));
}

// The ring, and the arm from the spindle to where the gauge is wanted or stands.
function ring(aim) {
  const [x, y] = aim ? LIES[aim.position].map((at) => at - 2) : [0, 0];
  return svg("svg", { viewBox: "-150 -100 300 200", preserveAspectRatio: "none", "aria-hidden": "true" },
    svg("ellipse", { cx: 0, cy: 0, rx: 100, ry: 67, class: "ring", fill: "none", "vector-effect": "non-scaling-stroke", "stroke-width": 5 }),
    svg("path", { d: `M0 0L${x * 100} ${y * 67}`, class: "arm-line", "vector-effect": "non-scaling-stroke" }));
}

// A number of another state of the head, or of another zero, is not shown.
function spot(each) {
  const [column, row] = LIES[each.position];
  const say = each.state === "next" ? each.say : each.age ? "" : each.value;
  const box = el("div", {
    class: "spot", "data-state": each.state, "data-place": each.position,
    role: "img", "aria-label": [each.say, say === each.say ? "" : say].filter(Boolean).join(": "),
  }, say ? el("span", {}, say) : el("i"));
  box.style.gridArea = `${row} / ${column}`;
  return box;
}

// A head each, in the order in which they are pulled up, and again from the first.
function heads({ order, step }) {
  const ends = order.map((name) => name.split(" ").at(-1));
  const apart = new Set(ends).size === ends.length && ends.every((end) => end.length <= SHORT);
  const at = (step - 1) % order.length;
  return el("ol", { class: "bolts" }, ...order.map((name, n) => el("li", {
    "data-state": n < at ? "done" : n === at ? "now" : "todo", "aria-label": name,
    "aria-current": n === at ? "step" : null,
  }, el("span", {}, apart ? ends[n] : String(n + 1)))));
}

function counted(stations) {
  if (!stations.length) return [];
  const at = stations.findIndex((each) => each.state === "next");
  return [
    el("p", { class: "station-count" }, `${at < 0 ? stations.length : at + 1} / ${stations.length}`),
    el("ol", { class: "stations" }, ...stations.map((each) => el("li", {
      "data-state": each.state, "aria-current": each.state === "next" ? "step" : null,
      "aria-label": [each.say, each.value].filter(Boolean).join(": "),
    }))),
  ];
}
