// An audit on record, played: it stands where a stream does, and opens none. What it shows
// was read from the record; the page says so in a band that comes with it.

import { el, part, setText } from "./dom.js";
import { words } from "./words.js";

const KEYS = { ArrowLeft: "back", ArrowRight: "on", Home: "first", End: "last", n: "step" };

export class Recorded {
  constructor(audit, handlers) {
    this.address = `/api/records/${encodeURIComponent(audit)}/moments`;
    this.handlers = handlers;
    this.moments = [];
    this.at = 0;
    this.turn = 0; // a move made meanwhile makes the one under way void
    this.timers = [];
    for (const [name, act] of Object.entries(this.acts)) {
      part(`play-${name}`).addEventListener("click", act);
    }
    addEventListener("keydown", (event) => this.key(event));
    addEventListener("hashchange", () => this.go(this.hashed));
    this.open();
  }

  get acts() {
    return {
      first: () => this.go(0),
      back: () => this.go(this.at - 1),
      on: () => this.go(this.at + 1),
      step: () => this.go(this.nextStep),
      run: () => (this.running ? this.halt() : this.run()),
    };
  }

  key(event) {
    if (event.target.closest?.("button, a, summary") && event.key === " ") return;
    const name = event.key === " " ? "run" : KEYS[event.key];
    if (!name) return;
    event.preventDefault();
    if (name === "last") this.go(this.moments.length - 1);
    else this.acts[name]();
  }

  get hashed() {
    const asked = this.moments.findIndex((each) => location.hash === `#${each.seq}`);
    return asked < 0 ? 0 : asked;
  }

  get nextStep() {
    const { step } = this.moments[this.at];
    const next = this.moments.findIndex((each, n) => n > this.at && each.step !== step);
    return next < 0 ? this.moments.length - 1 : next;
  }

  async open() {
    const all = await this.read(this.address);
    if (!all) return;
    this.moments = all.moments;
    this.longest = all.longest_s * 1000;
    await this.go(this.hashed);
  }

  async read(address) {
    try {
      const answer = await fetch(address);
      if (answer.ok) {
        this.handlers.alive(true, "");
        return await answer.json();
      }
    } catch {
      // Said below: there is nothing to be shown.
    }
    this.handlers.alive(false, words.no_connection);
    return null;
  }

  // At once, as it stood after that row.
  async go(n) {
    this.halt();
    if (n < 0 || n >= this.moments.length) return;
    const turn = this.turn;
    const moment = await this.read(`${this.address}/${n}`);
    if (moment && turn === this.turn) this.show(n, moment);
  }

  show(n, moment) {
    this.at = n;
    const { seq, when, what } = this.moments[n];
    const told = [when, ...what].join(" · ");
    this.handlers.snapshot(moment.snapshot);
    this.handlers.live(moment.stands);
    history.replaceState(null, "", `#${seq}`);
    for (const link of document.querySelectorAll("[data-part=play-other]")) link.hash = `#${seq}`;
    part("play-at").replaceChildren(el("b", {}, `${n + 1} / ${this.moments.length}`), ` ${told}`);
    document.body.dataset.moment = String(n);
  }

  halt() {
    this.turn += 1;
    this.running = false;
    this.timers.forEach(clearTimeout);
    this.timers = [];
    setText(part("play-run"), words.play_run);
  }

  // At its own pace, but for pauses that are too long to wait for.
  async run() {
    this.halt();
    this.running = true;
    setText(part("play-run"), words.play_halt);
    const turn = this.turn;
    while (turn === this.turn && this.at + 1 < this.moments.length) {
      const n = this.at + 1;
      const moment = await this.read(`${this.address}/${n}`);
      if (!moment || turn !== this.turn) return;
      await this.pass(this.moments[n].at_ms - this.moments[this.at].at_ms, moment.numbers);
      if (turn !== this.turn) return;
      this.show(n, moment);
    }
    if (turn === this.turn) this.halt();
  }

  // The time before a moment, with the numbers that came in it.
  pass(ms, numbers) {
    const wait = Math.min(Math.max(ms, 0), this.longest);
    for (const { before_ms: before, live } of numbers) {
      if (before <= wait) this.timers.push(setTimeout(() => this.handlers.live(live), wait - before));
    }
    return new Promise((done) => this.timers.push(setTimeout(done, wait)));
  }
}
