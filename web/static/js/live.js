// The live number, the stop-at beside it, and whether the data is alive.
// Every text, sign and unit comes from the server; the page adds only its own
// clock to the age.

import { part, setData, setText, show } from "./dom.js";
import { tellWidth } from "./fit.js";
import { Past } from "./past.js";
import { drawShift } from "./shift.js";

const LATE_MS = 100; // a sample read before a fault may arrive this much after it

export function ago(ms) {
  const seconds = Math.floor(ms / 1000);
  if (seconds < 1) return "just now";
  if (seconds < 120) return `${seconds} s ago`;
  if (seconds < 7200) return `${Math.floor(seconds / 60)} min ago`;
  return `${Math.floor(seconds / 3600)} h ago`;
}

export class LiveNumber {
  constructor(root) {
    this.root = root;
    this.live = null;
    this.cameAt = 0;
    this.faultAt = null;
    this.connected = false;
    this.why = "Connecting";
    this.settling = false;
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

  // A gauge that is away takes its number with it at once, however fresh that was;
  // one that still sends in spite of a fault keeps it.
  // What only warns, such as a calibration overdue, takes nothing away.
  setFaults(faults) {
    const fault = faults.some((each) => each.kind !== "warning");
    if (fault === (this.faultAt !== null)) return;
    this.faultAt = fault ? performance.now() : null;
    this.draw();
  }

  setAlive(connected, why) {
    this.connected = connected;
    this.why = why;
    this.draw();
  }

  setSettling(settling) {
    this.settling = settling;
    this.draw();
  }

  setStop(stop) {
    if (stop?.value !== this.stop?.value) this.past = new Past();
    this.stop = stop;
    this.draw();
  }

  setBolts(bolts) {
    this.bolts = bolts;
    this.draw();
  }

  get shown() {
    return this.live?.fresh ? this.known : null;
  }

  // What a gauge sent on its key is known, but not live.
  get sent() {
    return this.live?.keyed ? this.known : null;
  }

  get known() {
    const lost = this.faultAt !== null && this.cameAt - this.live?.age_ms < this.faultAt + LATE_MS;
    return this.connected && this.live.text !== "" && !lost ? this.live : null;
  }

  draw() {
    const live = this.shown;
    const number = live ?? this.sent;
    setData(part("number", this.root), "state", live ? "live" : number ? "sent" : "none");
    setText(part("digits", this.root), number ? number.text : "");
    setText(part("unit", this.root), number ? number.unit : "");
    setText(part("none", this.root), live ? "" : this.absence());
    if (number) tellWidth(part("number", this.root), "--digits-wide", part("digits-line", this.root));
    this.drawAlive(live);
    this.drawStop(number);
    drawShift(this.root, this.bolts, number);
  }

  absence() {
    if (!this.live?.text) return this.live?.keyed ? "Press the gauge's key" : "No live reading";
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
    show(box, this.stop);
    if (!this.stop) return;
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
