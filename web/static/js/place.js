// Where the gauge is read: on the sweep circle, or station by station where another check is made.

import { drawCircle } from "./circle.js";
import { el, rebuild } from "./dom.js";

export function drawPlace(node, view) {
  if (view.circle.length) drawCircle(node, view.circle);
  else rebuild(node, view.stations, () => view.stations.length ? [list(view.stations)] : []);
}

function list(stations) {
  return el("ol", { class: "stations" }, ...stations.map((station) =>
    el("li", { "data-state": station.state, "aria-current": station.state === "next" ? "step" : null },
      el("span", {}, station.say), el("b", {}, station.value))));
}
