// The live number, the stop-at beside it, and whether the data is alive.
// Every text, sign and unit comes from the server; the page adds only its own
// clock to the age.

import { part, setData, setText, show } from "./dom.js";
import { tellWidth } from "./fit.js";
import { Past } from "./past.js";
import { drawShift } from "./shift.js";

const MARKS = 50; // so many faults are remembered: a sample can be under way past one or two

// No line breaks within an age.
export function ago(ms) {
  const seconds = Math.floor(ms / 1000);
  if (seconds < 1) return "just now";
  if (seconds < 120) return `${seconds}\u00a0s\u00a0ago`;
  if (seconds < 7200) return `${Math.floor(seconds / 60)}\u00a0min\u00a0ago`;
  return `${Math.floor(seconds / 3600)}\u00a0h\u00a0ago`;
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
    this.why = "Connecting";
    this.settling = false;
    this.halt = null;
    this.halted = null;
    this.stop = null;
    this.past = new Past();
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
    if (stop?.value !== this.stop?.value) this.past = new Past();
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
    if (!connected && this.live) this.live = { ...this.live, text: "", fresh: false };
    this.connected = connected;
    this.why = why;
    this.draw();
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
    if (number) tellWidth(part("number", this.root), "--digits-wide", part("digits-line", this.root));
    this.drawAlive(live);
    this.drawStop(number);
    drawShift(this.root, this.halted ? null : this.bolts, number);
  }

  drawHalt() {
    const halted = this.missing ? this.halt : null;
    const news = halted?.say !== this.halted?.say;
    this.halted = halted;
    setText(part("halt", this.root), halted?.say ?? "");
    if (news) this.changed();
  }

  absence() {
    if (!this.live?.run) return this.live?.keyed ? "Press the gauge's key" : "No live reading";
    const sent = ago(this.live.age_ms + performance.now() - this.cameAt);
    return this.sent ? `Sent ${sent}, by its key` : `No live reading: last sent ${sent}`;
  }

  drawAlive(live) {
    const box = part("alive", this.root);
    let state = "none";
    let say = "No live reading";
    if (!this.connected) [state, say] = ["cut", this.why];
    else if (this.settling) [state, say] = ["settling", "Hold still"];
    else if (live) [state, say] = ["live", "Live"];
    else if (this.sent) [state, say] = ["sent", "Not live"];
    setData(box, "state", state);
    setText(part("alive-say", this.root), say);
  }

  drawStop(number) {
    const box = part("stop", this.root);
    const shown = this.stop && this.halted === null;
    show(box, shown);
    if (!shown) return;
    setText(part("stop-value", this.root), this.stop.value);
    this.drawTogo(part("togo", this.root), number);
    for (const line of ["stop-at", "togo"]) tellWidth(box, `--${line}-wide`, part(line, this.root));
  }

  drawTogo(togo, number) {
    if (!number?.to_go) {
      setData(togo, "way", "");
      setText(part("togo-say", this.root), number ? "" : "distance unknown");
      return;
    }
    const { way, say } = this.stop.past ? this.past.distance(number.to_go, this.stop) : distance(number.to_go, this.stop.way);
    setData(togo, "way", way);
    setText(part("togo-say", this.root), number.fresh ? say : `${say}, when sent`);
  }
}

// The sign of `to_go` is the way the number must still go: shown as a word.
function distance(toGo, way) {
  if (Number.parseFloat(toGo) === 0) return { way: "there", say: "Stop: you are there" };
  const now = toGo.startsWith("-") ? "down" : "up";
  const size = toGo.replace(/^[+-]/, "");
  if (now === way) return { way: now, say: `${now} ${size} to go` };
  return { way: now, say: `Too far: ${now} ${size}` };
}
