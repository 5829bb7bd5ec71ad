// What the wall draws, of a machine that is there or of an audit that is on record.

import { drawAxes } from "./axes.js";
import { drawCutOff } from "./cut_off.js";
import { part, setText } from "./dom.js";
import { LiveNumber } from "./live.js";
import { drawPlaceOnWall } from "./place.js";
import { Said } from "./said.js";
import { drawStep } from "./step.js";

const SMALLEST = 60; // per cent

export class WallScreen {
  constructor(root) {
    this.root = root;
    this.snapshot = null;
    this.told = null; // of a press made here
    this.said = new Said(() => this.draw());
    this.cutOff = new Said(() => this.draw());
    this.number = new LiveNumber(root, () => this.draw());
    addEventListener("resize", () => this.fit());
  }

  // What a source of snapshots and numbers calls.
  get handlers() {
    return {
      snapshot: (fresh) => this.show(fresh),
      live: (live) => this.number.update(live),
      settling: (state) => { this.number.setSettling(state.settling); this.draw(); },
      beat: () => this.number.beat(),
      alive: (alive, why) => {
        this.root.dataset.alive = String(alive);
        this.number.setAlive(alive, why);
      },
    };
  }

  show(fresh) {
    this.snapshot = fresh;
    this.said.hear(fresh.said);
    this.cutOff.hear(fresh.cut_off);
    this.number.show(fresh, fresh.pages.wall);
    this.draw();
  }

  tell(outcome, say) {
    this.told = say ? { outcome, say } : null;
    this.draw();
  }

  draw() {
    if (!this.snapshot) return;
    const view = this.snapshot.pages.wall;
    this.root.dataset.step = view.step;
    drawStep(this.root, this.snapshot, view, this.number, this.told ?? this.said.now);
    setText(part("hands"), view.hands ?? "");
    drawCutOff(this.root, this.cutOff.now);
    drawPlaceOnWall(part("circle"), view);
    drawAxes(part("axes"), view.circle.length ? view.axes : []);
    this.fit();
  }

  // Words shrink until all of them are on the screen: nothing may hide below an edge.
  fit() {
    const main = part("main");
    const boxes = [main, ...main.children];
    for (let percent = 100; percent >= SMALLEST; percent -= 5) {
      main.style.setProperty("--fit", (percent / 100).toFixed(2));
      if (boxes.every((box) => box.scrollHeight <= box.clientHeight + 2)) break;
    }
    // "Hold still" covers the instruction exactly.
    main.style.setProperty("--say-height", `${part("say").offsetHeight}px`);
  }
}
