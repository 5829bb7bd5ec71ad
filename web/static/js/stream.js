// One event stream a tab. A silent line is as bad as a cut one: after 1.5 s
// without an event the screen is told, and the stream is opened anew.

import { words } from "./words.js";

const SILENT_MS = 1200; // two beats and some; with the watch below, noticed within 1.5 s
const WATCH_MS = 100;
const REOPEN_MS = 1500;

export class Stream {
  constructor(machine, handlers) {
    this.machine = machine;
    this.handlers = handlers;
    this.source = null;
    this.alive = false;
    this.heardAt = performance.now();
    this.openedAt = 0;
    this.misses = 0;
    setInterval(() => this.watch(), WATCH_MS);
    addEventListener("pagehide", () => this.close());
    addEventListener("pageshow", (event) => event.persisted && this.open());
    this.open();
  }

  open() {
    this.close();
    this.openedAt = performance.now();
    const source = new EventSource(`/api/machines/${encodeURIComponent(this.machine)}/stream`);
    for (const name of ["snapshot", "live", "settling", "beat"]) {
      source.addEventListener(name, (event) => this.heard(name, event));
    }
    // A line that was cut says so at once; one that fell silent is noticed below.
    source.addEventListener("error", () => this.lose());
    this.source = source;
  }

  lose() {
    if (!this.alive) return;
    this.alive = false;
    this.handlers.alive?.(false, words.no_connection);
  }

  close() {
    this.source?.close();
    this.source = null;
  }

  heard(name, event) {
    this.heardAt = performance.now();
    if (!this.alive) {
      this.alive = true;
      this.misses = 0;
      this.handlers.alive?.(true, "");
    }
    this.handlers[name]?.(JSON.parse(event.data));
  }

  watch() {
    const now = performance.now();
    if (now - this.heardAt < SILENT_MS) return;
    this.lose();
    if (now - this.openedAt < REOPEN_MS) return;
    this.misses += 1;
    this.open();
    if (this.misses > 1) this.askWhy();
  }

  // An event stream does not tell why it was refused; the health page does.
  async askWhy() {
    let why = words.no_connection;
    try {
      const answer = await fetch("/healthz", { signal: AbortSignal.timeout(1000) });
      const health = await answer.json();
      if (health.crowded) why = words.crowded;
    } catch {
      // Not reached: that is the answer.
    }
    if (!this.alive) this.handlers.alive?.(false, why);
  }
}
