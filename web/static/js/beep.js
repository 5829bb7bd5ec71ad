// What is heard: pips that rise as the stop-at comes near, one steady note on it, beyond it a
// falling warble; a high note for a press that was taken, two low ones for one that was not, three that fall where
// the gauge is lost. Soft or loud is remembered on this device, and sounds again from the first touch
// after the page came anew: a browser lets no page sound before.

import { words } from "./words.js";

const NEAR_MM = 0.5;
const SLOWEST_MS = 700;
const FASTEST_MS = 120;
const LOWEST_HZ = 520;
const HIGHEST_HZ = 1040;
const STEADY = { pitch: 1320, seconds: 0.26, every_ms: 240 };
const WARBLE = { pitches: [440, 350], seconds: 0.09, every_ms: 110 };
const SIGNS = { taken: [[1760, 0.14]], refused: [[240, 0.16], [200, 0.26]], lost: [[700, 0.12], [500, 0.12], [350, 0.3]] };
const KEPT = "headsweep-sound";
const VOLUMES = { off: 0, loud: 0.5, soft: 0.12 };
const ORDER = Object.keys(VOLUMES);

export class Beeper {
  // `aim` tells how far the stop-at is, mm, and whether the number is "before" it, "there" or "past"
  // it; null: there is none to hear.
  constructor(button, aim) {
    this.button = button;
    this.aim = aim;
    this.where = "";
    this.off = button.textContent;
    this.context = null;
    this.nextAt = 0;
    this.turns = 0;
    this.set(localStorage.getItem(KEPT));
    button.addEventListener("click", () => {
      this.set(ORDER[(ORDER.indexOf(this.volume) + 1) % ORDER.length]);
      localStorage.setItem(KEPT, this.volume);
      if (this.on) this.tone(880, 0.08);
    });
    for (const touch of ["pointerdown", "keydown"]) addEventListener(touch, () => this.on && this.wake());
    setInterval(() => this.tick(), 40);
  }

  get on() {
    return VOLUMES[this.volume] > 0;
  }

  set(volume) {
    this.volume = ORDER.includes(volume) ? volume : "off";
    this.button.setAttribute("aria-pressed", String(this.on));
    this.button.textContent = { off: this.off, loud: words.sound_on, soft: words.sound_soft }[this.volume];
    if (this.on && navigator.userActivation?.isActive) this.wake();
  }

  // To be called while a press is being handled.
  wake() {
    this.context ??= new AudioContext();
    if (this.context.state !== "running") this.context.resume();
  }

  // "taken", "refused" or "lost".
  sign(name) {
    let after = 0;
    for (const [pitch, seconds] of this.on && this.context ? SIGNS[name] : []) {
      this.tone(pitch, seconds, after);
      after += seconds;
    }
  }

  tick() {
    if (!this.on || !this.context) return;
    const aim = this.aim();
    if (aim?.where !== this.where) this.nextAt = 0;
    this.where = aim?.where;
    if (aim && performance.now() >= this.nextAt) this.nextAt = performance.now() + this.heard(aim);
  }

  // Sounds what there is to hear now, and returns how long until the next.
  heard({ toGoMm, where }) {
    if (where === "there") {
      this.tone(STEADY.pitch, STEADY.seconds, 0, true);
      return STEADY.every_ms;
    }
    if (where === "past") {
      this.turns += 1;
      this.tone(WARBLE.pitches[this.turns % 2], WARBLE.seconds);
      return WARBLE.every_ms;
    }
    const share = Math.abs(toGoMm) / NEAR_MM;
    if (share > 1) return 0;
    this.tone(HIGHEST_HZ - (HIGHEST_HZ - LOWEST_HZ) * share, 0.06);
    return FASTEST_MS + (SLOWEST_MS - FASTEST_MS) * Math.sqrt(share);
  }

  tone(pitch, seconds, after = 0, steady = false) {
    if (!this.context) return;
    const start = this.context.currentTime + after;
    const source = this.context.createOscillator();
    const volume = this.context.createGain();
    const loud = VOLUMES[this.volume] || VOLUMES.soft;
    source.frequency.value = pitch;
    volume.gain.setValueAtTime(loud, start);
    volume.gain.exponentialRampToValueAtTime(steady ? loud : 0.001, start + seconds);
    source.connect(volume).connect(this.context.destination);
    source.start(start);
    source.stop(start + seconds);
  }
}
