// The console's keyboard: its pedal, which may be learned here, digits, U and C.

import { part } from "./dom.js";
import { Pedal, remember, remembered } from "./pedal.js";
import { words } from "./words.js";

export class Keys extends Pedal {
  // `desk` has, besides what a pedal needs: numbered(key) (true if it found one).
  constructor(root, desk) {
    super(desk);
    this.root = root;
    this.single = remembered("single-keys") !== "off";
    this.learning = false;
    this.wireBox();
  }

  wireBox() {
    const box = part("key-box", this.root);
    const single = part("single", box);
    part("keys", this.root).addEventListener("click", () => { this.showPedal(); box.showModal(); });
    single.checked = this.single;
    single.addEventListener("change", () => {
      this.single = single.checked;
      remember("single-keys", this.single ? null : "off");
    });
    part("pedal-learn", box).addEventListener("click", () => {
      this.learning = true;
      part("pedal-now", box).textContent = words.press_now;
    });
    part("pedal-forget", box).addEventListener("click", () => this.setPedal(null));
    box.addEventListener("close", () => { this.learning = false; });
  }

  setPedal(code) {
    this.learning = false;
    this.pedal = code;
    remember("pedal", code);
    this.showPedal();
  }

  showPedal() {
    part("pedal-now", this.root).textContent = this.pedal ?? words.enter;
  }

  down(event) {
    if (!this.learning) return super.down(event);
    event.preventDefault();
    this.setPedal(event.code === "Escape" ? this.pedal : event.code);
  }

  other(event) {
    if (!this.single || event.repeat || event.key.length !== 1) return;
    // Not also typed into the box that may open.
    if (this.desk.numbered(event.key.toLowerCase())) event.preventDefault();
  }
}
