// Where the gauge is read: on the sweep circle, or station by station where another check is made.

import { drawCircle } from "./circle.js";
import { el, rebuild } from "./dom.js";
import { filled, words } from "./words.js";

const ON_WALL = 7; // so many lines of them carry across a shop

export function drawPlace(node, view) {
  if (view.circle.length) drawCircle(node, view.circle);
  else rebuild(node, view.stations, () => view.stations.length ? [list(view.stations.map(station))] : []);
}

// On the wall the stations about the next one, and later what came out, in letters of one size.
export function drawPlaceOnWall(node, view) {
  if (view.circle.length) drawCircle(node, view.circle);
  else rebuild(node, [view.stations, view.axes], () => [list([...about(view.stations).map(station), ...view.axes.map(result)])]);
}

function about(stations) {
  const next = stations.findIndex((each) => each.state === "next");
  const first = Math.max(0, Math.min(next - Math.floor(ON_WALL / 2), stations.length - ON_WALL));
  return stations.slice(first, first + ON_WALL);
}

function list(lines) {
  return el("ol", { class: "stations" }, ...lines);
}

function station(each) {
  return el("li", { "data-state": each.state, "aria-current": each.state === "next" ? "step" : null },
    el("span", {}, each.say), el("b", {}, each.value));
}

function result(each) {
  const allowed = each.limit ? filled(each.over ? words.allowed_over : words.allowed, each) : "";
  const more = [each.low, allowed, each.note].filter(Boolean).join(", ");
  return el("li", { "data-state": "done" },
    el("span", {}, each.say, el("small", {}, more)),
    el("b", {}, each.value, each.word ? ` ${words.called[each.word]}` : ""));
}
