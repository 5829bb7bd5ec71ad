// Where the gauge is read: on the sweep circle, or station by station where another check is made.

import { drawCircle } from "./circle.js";
import { el, rebuild } from "./dom.js";

export function drawPlace(node, view) {
  if (view.circle.length) drawCircle(node, view.circle);
  else rebuild(node, view.stations, () => view.stations.length ? [list(view.stations.map(station))] : []);
}

function list(lines) {
  return el("ol", { class: "stations" }, ...lines);
}

function station(each) {
  return el("li", { "data-state": each.state, "aria-current": each.state === "next" ? "step" : null },
    el("span", {}, each.say), el("b", {}, each.value));
}
