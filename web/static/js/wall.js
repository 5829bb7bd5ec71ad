// The wall screen: everything in one view, and nothing to press but a pedal that types.

import { drawAxes } from "./axes.js";
import { part, setText } from "./dom.js";
import { Foot } from "./foot.js";
import { LiveNumber } from "./live.js";
import { drawPlaceOnWall } from "./place.js";
import { Said } from "./said.js";
import { drawStep } from "./step.js";
import { Stream } from "./stream.js";

const SMALLEST = 0.6;
const root = document.body;
const said = new Said(draw);
let snapshot = null;
let told = null; // of a press made here
const number = new LiveNumber(root, draw);

function draw() {
  if (!snapshot) return;
  const view = snapshot.pages.wall;
  root.dataset.step = view.step;
  drawStep(root, snapshot, view, number, told ?? said.now);
  setText(part("hands"), view.hands ?? "");
  drawPlaceOnWall(part("circle"), view);
  drawAxes(part("axes"), view.circle.length ? view.axes : []);
  fit();
}

// Words shrink until all of them are on the screen: nothing may hide below an edge.
function fit() {
  const main = part("main");
  const boxes = [main, ...main.children];
  for (let size = 1; size >= SMALLEST; size -= 0.05) {
    main.style.setProperty("--fit", size.toFixed(2));
    if (boxes.every((box) => box.scrollHeight <= box.clientHeight + 2)) break;
  }
  // "Hold still" covers the instruction exactly.
  main.style.setProperty("--say-height", `${part("say").offsetHeight}px`);
}

new Stream(root.dataset.machine, {
  snapshot(fresh) {
    snapshot = fresh;
    said.hear(fresh.said);
    number.show(fresh, fresh.pages.wall);
    draw();
  },
  live(live) { number.update(live); },
  settling(state) { number.setSettling(state.settling); draw(); },
  beat() { number.beat(); },
  alive(alive, why) { root.dataset.alive = String(alive); number.setAlive(alive, why); },
});
if (root.dataset.pedal === "on") {
  new Foot(root.dataset.machine, {
    snapshot: () => snapshot,
    alive: () => number.connected,
    tell(outcome, say) { told = say ? { outcome, say } : null; draw(); },
  });
}
addEventListener("resize", fit);
