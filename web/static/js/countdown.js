// The count-down for those without a pedal: 3-2-1, let go, and then the big
// button by itself, so that no hand is near when the gauge is read.

import { part, setData, setText } from "./dom.js";
import { remember, remembered } from "./pedal.js";
import { words } from "./words.js";

const STEP_MS = 1000;
const COUNT = [
  { say: "3", pitch: 660, seconds: 0.12 },
  { say: "2", pitch: 660, seconds: 0.12 },
  { say: "1", pitch: 660, seconds: 0.12 },
  { say: words.let_go, word: true, pitch: 990, seconds: 0.5 },
];

export class Countdown {
  // `desk` has: ready() (whether there is a big button to press), press(), hint(text).
  constructor(root, beeper, desk) {
    this.beeper = beeper;
    this.desk = desk;
    this.box = part("counting", root);
    this.button = part("count", root);
    this.label = this.button.textContent;
    this.on = remembered("count-down") !== "off";
    this.timer = null;
    this.at = 0;
    this.button.addEventListener("click", (event) => {
      // A finger leaves no focus behind: a pedal that types Enter must not land here.
      if (event.detail > 0) this.button.blur();
      this.toggle();
    });
    addEventListener("keydown", (event) => { if (event.key === "Escape") this.cancel(); });
    const tick = part("count-on", root);
    tick.checked = this.on;
    tick.addEventListener("change", () => this.offer(tick.checked));
    this.button.hidden = !this.on;
  }

  // Whether this device shows the count-down is kept for the next time.
  offer(on) {
    this.on = on;
    remember("count-down", on ? null : "off");
    this.button.hidden = !on;
    if (!on) this.cancel();
  }

  // Returns whether the count-down is in use here.
  toggle() {
    if (!this.on) return false;
    if (this.timer !== null) this.cancel();
    else if (this.desk.ready()) this.start();
    else this.desk.hint(words.nothing_to_count);
    return true;
  }

  start() {
    this.at = 0;
    this.beeper.wake();
    this.button.textContent = words.stop_count;
    this.step();
  }

  step() {
    if (this.at === COUNT.length) {
      this.cancel();
      this.desk.press();
      return;
    }
    const { say, word, pitch, seconds } = COUNT[this.at];
    this.at += 1;
    this.box.hidden = false;
    setData(this.box, "word", String(word === true));
    setText(part("count-say", this.box), say);
    this.beeper.tone(pitch, seconds);
    this.timer = setTimeout(() => this.step(), STEP_MS);
  }

  cancel() {
    if (this.timer === null) return;
    clearTimeout(this.timer);
    this.timer = null;
    this.box.hidden = true;
    setText(part("count-say", this.box), "");
    this.button.textContent = this.label;
  }
}
