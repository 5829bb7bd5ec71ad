// What the console draws besides its buttons, of a machine that is there or of an audit on record.

import { drawAxes } from "./axes.js";
import { drawCutOff } from "./cut_off.js";
import { el, part, rebuild, setData, setText, show } from "./dom.js";
import { LiveNumber } from "./live.js";
import { drawNumbers } from "./numbers.js";
import { drawPlace } from "./place.js";
import { Said } from "./said.js";
import { drawStep } from "./step.js";
import { filled, words } from "./words.js";

const lines = (all) => all.map((say) => el("li", {}, say));

export class ConsoleScreen {
  constructor(root) {
    this.root = root;
    this.snapshot = null;
    this.said = new Said(() => this.draw());
    this.cutOff = new Said(() => this.draw());
    this.number = new LiveNumber(root, () => this.draw());
  }

  // What a source of snapshots and numbers calls.
  get handlers() {
    return {
      snapshot: (fresh) => this.take(fresh),
      live: (live) => this.number.update(live),
      settling: (state) => { this.number.setSettling(state.settling); this.draw(); },
      beat: () => this.number.beat(),
      alive: (alive, why) => this.number.setAlive(alive, why),
    };
  }

  // What became of a press, as far as it is told with the step.
  get news() {
    return this.said.now;
  }

  take(snapshot) {
    this.snapshot = snapshot;
    this.said.hear(snapshot.said);
    this.cutOff.hear(snapshot.cut_off);
    this.number.show(snapshot, snapshot.pages.console);
    this.draw();
  }

  draw() {
    if (!this.snapshot) return;
    const view = this.snapshot.pages.console;
    setData(this.root, "step", view.step);
    drawStep(this.root, this.snapshot, view, this.number, this.news);
    drawCutOff(this.root, this.cutOff.now);
    drawPlace(part("circle", this.root), view);
    drawAxes(part("axes", this.root), view.axes);
    setText(part("short", this.root), view.short ? filled(words.audit, view) : "");
    rebuild(part("stands", this.root), view.stands, lines);
    show(part("why", this.root), view.why.length);
    rebuild(part("why-body", this.root), view.why, lines);
    drawNumbers(part("numbers", this.root), part("numbers-body", this.root), view.numbers);
  }
}
