// The live number, the stop-at beside it, and whether the data is alive.
// What it says of them comes from the server with each number; the page adds only
// its own clock to the age.

import { part, setData, setText, show } from "./dom.js";
import { tellWidth } from "./fit.js";
import { aged, words } from "./words.js";

const MARKS = 50; // so many faults are remembered: a sample can be under way past one or two

// The number on its way to the stop-at, the band in which a turn may end drawn to scale.
function drawStrip(root, strip) {
  show(part("stop-strip", root), strip);
  if (!strip) return;
  const style = part("stop-strip", root).style;
  style.setProperty("--half", strip.half);
  style.setProperty("--at", strip.at);
}

export class LiveNumber {
  // `changed` is called when the instruction must give way to STOP, or comes back.
  constructor(root, changed = () => {}) {
    this.root = root;
    this.changed = changed;
    this.live = null;
    this.cameAt = 0;
    this.faulty = false;
    this.deaf = false;
    this.lost = new Map();
    this.connected = false;
    this.why = words.connecting;
    this.settling = false;
    this.halt = null;
    this.halted = null;
    this.stop = null;
    this.bolts = null;
    setInterval(() => this.draw(), 250);
  }

  update(live) {
    this.live = live;
    this.cameAt = performance.now();
    this.draw();
  }

  // A snapshot and its view of the step: what the number is to be held against.
  show({ faults }, { stop_at: stop, bolts, halt }) {
    this.stop = stop;
    this.bolts = bolts;
    this.halt = halt;
    this.hearFaults(faults);
    this.draw();
  }

  // A fault takes every number read before it away for good, however late one arrives; a
  // gauge that still sends in spite of a fault keeps those read after it. What only warns,
  // such as a calibration overdue, takes nothing away.
  hearFaults(faults) {
    const all = faults.filter((each) => each.kind !== "warning");
    this.faulty = all.length > 0;
    this.deaf = all.some((fault) => !fault.run);
    for (const { run, n } of all.filter((fault) => fault.run)) {
      this.lost.set(run, Math.max(n, this.lost.get(run) ?? n));
      if (this.lost.size > MARKS) this.lost.delete(this.lost.keys().next().value);
    }
  }

  // A number from before a cut is not shown again: the next one comes by itself.
  setAlive(connected, why) {
    if (!connected && this.live) this.live = { ...this.live, text: "", fresh: false, against: null };
    this.connected = connected;
    this.why = why;
    this.draw();
  }

  // The dot goes off and on with what the line tells: it stands still when that does.
  beat() {
    const box = part("alive", this.root);
    setData(box, "beat", box.dataset.beat === "off" ? "on" : "off");
  }

  setSettling(settling) {
    this.settling = settling;
    this.draw();
  }

  get shown() {
    return this.fresh ? this.known : null;
  }

  // The page's own clock goes on where the line does not.
  get fresh() {
    const left = this.live?.fresh_for_ms ?? Infinity;
    return this.live?.fresh && performance.now() - this.cameAt <= left;
  }

  // What a gauge sent on its key is known, but not live.
  get sent() {
    return this.live?.keyed ? this.known : null;
  }

  get known() {
    if (!this.connected || this.deaf || !this.live?.text) return null;
    return this.live.n > (this.lost.get(this.live.run) ?? -1) ? this.live : null;
  }

  // A gauge that sends on its key has no live number to miss, unless it is away.
  get missing() {
    const keyed = this.connected && !this.faulty && this.live?.keyed;
    return this.shown === null && !keyed;
  }

  draw() {
    const live = this.shown;
    const number = live ?? this.sent;
    setData(part("number", this.root), "state", live ? "live" : number ? "sent" : "none");
    setText(part("digits", this.root), number ? number.text : "");
    setText(part("unit", this.root), number ? number.unit : "");
    setText(part("none", this.root), live ? "" : this.absence());
    this.drawHalt();
    // On the wall the unit has a size of its own.
    const line = this.root.classList.contains("wall") ? "digits" : "digits-line";
    if (number) tellWidth(part("number", this.root), "--digits-wide", part(line, this.root));
    this.drawAlive(live);
    // Without a number only what the server says of that is true.
    const against = (number || !this.live?.text ? this.live?.against : null) ?? null;
    this.drawStop(against);
    this.drawShift(against);
    this.drawShape(number, against);
  }

  // Room is made anew where words change, not where a figure does.
  drawShape(...shown) {
    const said = (each) => [each?.text, each?.say, each?.more, each?.lean];
    const shape = JSON.stringify(shown.map(said)).replace(/\d/g, "0");
    const news = shape !== this.shape;
    this.shape = shape;
    if (news) this.changed();
  }

  drawHalt() {
    const halted = this.missing ? this.halt : null;
    const news = halted?.say !== this.halted?.say;
    this.halted = halted;
    setText(part("halt", this.root), halted?.say ?? "");
    if (news) this.changed();
  }

  absence() {
    if (!this.live?.run) return this.live?.keyed ? words.press_key : words.no_live;
    const ms = this.live.age_ms + performance.now() - this.cameAt;
    return aged(this.sent ? words.sent_by_key : words.last_sent, ms);
  }

  drawAlive(live) {
    const box = part("alive", this.root);
    let state = "none";
    let say = words.no_live;
    if (!this.connected) [state, say] = ["cut", this.why];
    else if (this.settling) [state, say] = ["settling", words.settling];
    else if (live) [state, say] = ["live", words.live];
    else if (this.sent) [state, say] = ["sent", words.not_live];
    setData(box, "state", state);
    setText(part("alive-say", this.root), say);
  }

  drawStop(against) {
    const box = part("stop", this.root);
    const shown = this.stop && this.halted === null;
    show(box, shown);
    if (!shown) return;
    setText(part("stop-value", this.root), this.stop.value);
    setData(part("togo", this.root), "way", against?.state ?? "");
    setText(part("togo-say", this.root), against?.say ?? "");
    setText(part("lean", this.root), against?.lean ?? "");
    setText(part("stop-within", this.root), this.stop.within ?? "");
    drawStrip(this.root, against?.strip);
    for (const line of ["stop-at", "togo", "lean"]) tellWidth(box, `--${line}-wide`, part(line, this.root));
  }

  // While bolts are pulled up: what it does to the number.
  drawShift(against) {
    const box = part("shift", this.root);
    const shown = this.bolts && this.halted === null;
    show(box, shown);
    if (!shown) return;
    setData(box, "state", against?.state ?? "");
    setText(part("shift-now", this.root), against?.say ?? "");
    setText(part("shift-all", this.root), against?.more ?? "");
    for (const line of ["shift-line", "shift-all"]) tellWidth(box, `--${line}`, part(line, this.root));
  }
}
