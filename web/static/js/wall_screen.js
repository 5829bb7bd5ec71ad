// What the wall draws, of a machine that is there or of an audit that is on record.

import { drawCutOff } from "./cut_off.js";
import { part, setData, setText } from "./dom.js";
import { LiveNumber } from "./live.js";
import { drawPlaceOnWall } from "./place_wall.js";
import { Said } from "./said.js";
import { drawStep } from "./step.js";
import { fitWall } from "./wall_fit.js";
import { drawVerdictOnWall } from "./wall_verdict.js";

const OVER_ALL = ["fault", "refused", "question"]; // what is wider than the drawing, beside messages

export class WallScreen {
  constructor(root) {
    this.root = root;
    this.snapshot = null;
    this.told = null; // of a press made here
    this.said = new Said(() => this.draw());
    this.cutOff = new Said(() => this.draw());
    this.number = new LiveNumber(root, () => this.draw());
    addEventListener("resize", () => this.fit());
    this.fit();
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
    drawWall(this.root, this.snapshot, this.snapshot.pages.wall, this.number, this.told ?? this.said.now);
    drawCutOff(this.root, this.cutOff.now);
    this.fit();
  }

  fit() {
    fitWall(this.root);
  }
}

// A step as the wall shows it, whatever it is shown in.
export function drawWall(root, snapshot, view, number, said) {
  const main = part("main", root);
  setData(root, "step", view.step);
  setData(root, "turns", view.stop_at?.axis ?? "");
  setData(main, "picture", view.picture);
  drawStep(root, snapshot, view, number, said);
  setText(part("hands", root), view.hands ?? "");
  drawPlaceOnWall(part("circle", root), view);
  drawVerdictOnWall(part("axes", root), view);
  const kinds = [...part("alerts", root).querySelectorAll(".alert:not([data-aside])")].map((alert) => alert.dataset.kind);
  const wide = view.picture === "lines" || kinds.some((kind) => OVER_ALL.includes(kind));
  const told = kinds.some((kind) => kind === "message" || kind === "warning");
  setData(main, "alarm", told && !wide ? "place" : "wide");
  setData(main, "refused", String(kinds.includes("refused")));
}
