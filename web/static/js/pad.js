// Ten digits on the screen, under the line they go into: no keyboard comes up, and none is needed.

import { el } from "./dom.js";
import { dashed } from "./fields.js";
import { words } from "./words.js";

const DIGITS = ["1", "2", "3", "4", "5", "6", "7", "8", "9", "0"];

export class Pad {
  // Comes under any line within `box` that wants digits, as that is chosen, and stays there.
  constructor(box) {
    this.into = null;
    const keys = [...DIGITS.map((digit) => this.key(digit, digit)), this.key("⌫", "", words.digit_back)];
    this.node = el("div", { class: "pad", role: "group", "aria-label": words.digits }, ...keys);
    box.addEventListener("focusin", (event) => this.come(event.target));
  }

  come(line) {
    if (!line.dataset?.pad || this.into === line) return;
    this.into = line;
    line.closest(".field").after(this.node);
    this.node.scrollIntoView({ block: "nearest" });
  }

  leave() {
    this.into = null;
    this.node.remove();
  }

  key(say, digit, name = null) {
    const key = el("button", { type: "button", class: "digit", tabindex: "-1", "aria-label": name }, say);
    // The line keeps the focus: what is typed as well goes on there.
    for (const kind of ["pointerdown", "mousedown"]) key.addEventListener(kind, (event) => event.preventDefault());
    key.addEventListener("click", () => this.press(digit));
    return key;
  }

  press(digit) {
    const line = this.into;
    const text = digit ? line.value + digit : line.value.slice(0, -1);
    line.value = line.dataset.pad === "date" ? dashed(text) : text;
    line.dispatchEvent(new Event("input", { bubbles: true }));
  }
}
