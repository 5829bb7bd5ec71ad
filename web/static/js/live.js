// The live number, the stop-at beside it, and whether the data is alive.
// Every text, sign and unit comes from the server; the page adds only its own
// clock to the age.

import { part, setData, setText } from "./dom.js";

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
    setInterval(() => this.draw(), 250);
  }

  update(live) {
    this.live = live;
    this.cameAt = performance.now();
    this.draw();
  }

  // A gauge that is away takes its number with it at once, however fresh that was;
  // one that still sends in spite of a fault keeps it.
  setFault(fault) {
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
    this.stop = stop;
    this.draw();
  }

  get shown() {
    const lost = this.faultAt !== null && this.cameAt - this.live?.age_ms < this.faultAt + LATE_MS;
    return this.connected && this.live?.fresh && this.live.text !== "" && !lost ? this.live : null;
  }

  draw() {
    const live = this.shown;
    setData(part("number", this.root), "state", live ? "live" : "none");
    setText(part("digits", this.root), live ? live.text : "");
    setText(part("unit", this.root), live ? live.unit : "");
    setText(part("none", this.root), live ? "" : this.absence());
    setData(part("number", this.root), "long", String((live?.text.length ?? 0) > 7));
    this.drawAlive(live);
    this.drawStop(live);
  }

  absence() {
    if (!this.live?.text) return "No live reading";
    const age = this.live.age_ms + performance.now() - this.cameAt;
    return `No live reading: last sent ${ago(age)}`;
  }

  drawAlive(live) {
    const box = part("alive", this.root);
    let state = "none";
    let say = "No live reading";
    if (!this.connected) [state, say] = ["cut", this.why];
    else if (this.settling) [state, say] = ["settling", "Hold still"];
    else if (live) [state, say] = ["live", "Live"];
    setData(box, "state", state);
    setText(part("alive-say", this.root), say);
  }

  drawStop(live) {
    const box = part("stop", this.root);
    box.hidden = !this.stop;
    if (!this.stop) return;
    setData(box, "long", String(this.stop.value.length > 6));
    setText(part("stop-value", this.root), this.stop.value);
    const togo = part("togo", this.root);
    if (!live?.to_go) {
      setData(togo, "way", "");
      setText(part("togo-say", this.root), live ? "" : "distance unknown");
      return;
    }
    const { way, say } = distance(live.to_go, this.stop.way);
    setData(togo, "way", way);
    setText(part("togo-say", this.root), say);
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
