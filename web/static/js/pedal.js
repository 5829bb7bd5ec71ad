// A pedal is a key: press and let go is the primary action, held for 2 s is undo.

import { words } from "./words.js";

const HOLD_MS = 2000;
const BOUNCE_MS = 300;
const OWN = "button, a, input, summary";

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

export class Pedal {
  // `desk` has: asking(), primary(), undo(), hint(text). `keys`: those a pedal may type,
  // besides the one that was learned on this device.
  constructor(desk, keys = ["Enter"]) {
    this.desk = desk;
    this.keys = keys;
    this.pedal = remembered("pedal");
    this.holding = null;
    this.lastAt = -Infinity;
    addEventListener("keydown", (event) => this.down(event));
    addEventListener("keyup", (event) => this.up(event));
    addEventListener("blur", () => this.letGo());
  }

  down(event) {
    if (event.ctrlKey || event.altKey || event.metaKey || this.desk.asking() || typing(event.target)) return;
    if (this.isPress(event)) {
      event.preventDefault();
      if (!event.repeat) this.hold(event.code);
    } else {
      this.other(event);
    }
  }

  // A key that is no pedal.
  other() {}

  // Such a key belongs to whatever has the focus, unless that is the primary button itself.
  isPress(event) {
    if (event.code === this.pedal) return true;
    if (!this.keys.includes(event.key)) return false;
    const own = event.target.closest?.(OWN);
    return !own || own.classList.contains("primary");
  }

  hold(code) {
    const now = performance.now();
    if (this.holding || now - this.lastAt < BOUNCE_MS) return;
    this.holding = {
      code,
      hint: setTimeout(() => this.desk.hint(words.keep_holding), 600),
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
