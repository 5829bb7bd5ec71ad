// Beeps as the stop-at comes near: faster the nearer, one long tone at it.

import { words } from "./words.js";

const NEAR_MM = 0.5;
const SLOWEST_MS = 700;
const FASTEST_MS = 90;

export class Beeper {
  constructor(button) {
    this.on = false;
    this.context = null;
    this.toGoMm = null;
    this.nextAt = 0;
    const off = button.textContent;
    button.addEventListener("click", () => {
      this.on = !this.on;
      button.setAttribute("aria-pressed", String(this.on));
      button.textContent = this.on ? words.sound_on : off;
      // Browsers let a page sound only after a press.
      if (this.on) {
        this.wake();
        this.tone(880, 0.08);
      }
    });
    setInterval(() => this.tick(), 40);
  }

  // To be called while a press is being handled.
  wake() {
    this.context ??= new AudioContext();
    this.context.resume();
  }

  // Distance to the stop-at in millimetres, or null when there is none to hear.
  update(toGoMm) {
    this.toGoMm = toGoMm;
  }

  tick() {
    if (!this.on || this.toGoMm === null) return;
    const away = Math.abs(this.toGoMm);
    const now = performance.now();
    if (away > NEAR_MM || now < this.nextAt) return;
    const share = away / NEAR_MM;
    this.tone(1320 - 660 * share, 0.06);
    this.nextAt = now + FASTEST_MS + (SLOWEST_MS - FASTEST_MS) * Math.sqrt(share);
  }

  tone(pitch, seconds) {
    const start = this.context.currentTime;
    const source = this.context.createOscillator();
    const volume = this.context.createGain();
    source.frequency.value = pitch;
    volume.gain.setValueAtTime(0.2, start);
    volume.gain.exponentialRampToValueAtTime(0.001, start + seconds);
    source.connect(volume).connect(this.context.destination);
    source.start(start);
    source.stop(start + seconds);
  }
}
