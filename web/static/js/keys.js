// Keyboard and pedal. A pedal is a key: by default Enter, or one learned here.
// Press and let go: the primary action. Hold for 2 s: undo.

import { part } from "./dom.js";

const HOLD_MS = 2000;
const BOUNCE_MS = 300;

export function remembered(name) {
  try { return localStorage.getItem(name); } catch { return null; }
}

export function remember(name, value) {
  try {
    if (value === null) localStorage.removeItem(name);
    else localStorage.setItem(name, value);
  } catch {
    // A browser that keeps nothing still works; it only forgets.
  }
}

export class Keys {
  // `desk` has: asking(), primary(), undo(), numbered(key) (true if it
  // found one), hint(text).
  constructor(root, desk) {
    this.root = root;
    this.desk = desk;
    this.pedal = remembered("pedal");
    this.single = remembered("single-keys") !== "off";
    this.learning = false;
    this.holding = null;
    this.lastAt = -Infinity;
    addEventListener("keydown", (event) => this.down(event));
    addEventListener("keyup", (event) => this.up(event));
    addEventListener("blur", () => this.letGo());
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
      part("pedal-now", box).textContent = "press it now…";
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
    part("pedal-now", this.root).textContent = this.pedal ?? "Enter";
  }

  down(event) {
    if (this.learning) {
      event.preventDefault();
      this.setPedal(event.code === "Escape" ? this.pedal : event.code);
      return;
    }
    if (event.ctrlKey || event.altKey || event.metaKey || this.desk.asking() || typing(event.target)) return;
    if (this.isPress(event)) {
      event.preventDefault();
      if (!event.repeat) this.hold(event.code);
    } else if (this.single && !event.repeat && event.key.length === 1) {
      // Not also typed into the box that may open.
      if (this.desk.numbered(event.key.toLowerCase())) event.preventDefault();
    }
  }

  // Enter belongs to whatever has the focus, unless that is the primary button itself.
  isPress(event) {
    if (event.code === this.pedal) return true;
    if (event.key !== "Enter") return false;
    const own = event.target.closest?.("button, a, input, summary");
    return !own || own.classList.contains("primary");
  }

  hold(code) {
    const now = performance.now();
    if (this.holding || now - this.lastAt < BOUNCE_MS) return;
    this.holding = {
      code,
      hint: setTimeout(() => this.desk.hint("Keep holding to undo…"), 600),
      undo: setTimeout(() => { this.letGo(); this.desk.hint(""); this.desk.undo(); }, HOLD_MS),
    };
  }

  up(event) {
    if (this.holding?.code !== event.code) return;
    this.letGo();
    this.desk.hint("");
    this.desk.primary();
  }

  letGo() {
    if (!this.holding) return;
    clearTimeout(this.holding.hint);
    clearTimeout(this.holding.undo);
    this.holding = null;
    this.lastAt = performance.now();
  }
}

function typing(target) {
  return target.matches?.("input:not([type=checkbox]):not([type=radio]), textarea, select") ?? false;
}
