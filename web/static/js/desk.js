// The console: the step, its buttons, and what became of the last press.

import { drawActions, primaryOf, undoOf } from "./actions.js";
import { AskBox } from "./ask.js";
import { Beeper } from "./beep.js";
import { command, send } from "./commands.js";
import { ConsoleScreen } from "./console_screen.js";
import { Countdown } from "./countdown.js";
import { part, setData, setText } from "./dom.js";
import { Keys } from "./keys.js";
import { parted, withPins } from "./pins.js";
import { post, rights } from "./post.js";
import { Stream } from "./stream.js";
import { words } from "./words.js";

const READ_WITHIN_MS = 5000;
const READ_MS = 4000; // a refusal stays this long, whatever comes in

export class Desk extends ConsoleScreen {
  constructor(root, machine) {
    super(root);
    this.machine = machine;
    this.unsent = null;
    this.pressed = "";
    this.working = false;
    this.toldAt = 0;
    this.lost = false;
    this.beeper = new Beeper(part("sound", root), () => this.heard);
    this.box = new AskBox(root);
    this.countdown = new Countdown(root, this.beeper, {
      ready: () => primaryOf(this.actions) !== null && !this.working && this.number.connected,
      press: () => this.press(primaryOf(this.actions)),
      hint: (text) => this.tell(text, "wait"),
    });
    this.keys = new Keys(root, {
      asking: () => document.querySelector("dialog[open]") !== null,
      primary: () => this.press(primaryOf(this.actions)),
      undo: () => this.press(undoOf(this.actions)),
      numbered: (key) => this.pressNumbered(key),
      hint: (text) => this.tell(text, "wait"),
    });
    for (const head of root.querySelectorAll("summary")) {
      head.addEventListener("click", (event) => {
        // A finger leaves no focus behind: the pedal's Enter is for the big button.
        if (event.detail > 0) event.currentTarget.blur();
      });
    }
    const read = part("cut-off-read", root);
    read.hidden = rights.right === "look";
    read.addEventListener("click", () => post("/api/cut-off/read", {}, READ_WITHIN_MS).catch(() => {}));
    new Stream(machine, {
      snapshot: (fresh) => this.show(fresh),
      live: (live) => this.number.update(live),
      settling: (state) => this.settle(state.settling),
      beat: () => this.number.beat(),
      alive: (alive, why) => {
        this.number.setAlive(alive, why);
        if (!alive) this.countdown.cancel();
      },
    });
  }

  // Of its own press a console tells beside the button, in full.
  get news() {
    return this.said.now?.command && this.said.now.command === this.pressed ? null : this.said.now;
  }

  get actions() {
    return this.snapshot?.pages.console.actions ?? [];
  }

  // Where the number is, for the ear. Going past is none where it is asked for.
  get heard() {
    const { to_go_mm: toGoMm, against } = this.number.shown ?? {};
    const stop = this.snapshot?.pages.console.stop_at;
    if (!stop || !against || !Number.isFinite(toGoMm) || against.state === "unknown") return null;
    const past = against.state !== stop.way && !stop.past;
    return { toGoMm, where: against.state === "there" ? "there" : past ? "past" : "before" };
  }

  // What became of a press, wherever it was made, and that the gauge was lost while it is needed.
  signal(before) {
    const said = this.snapshot.said;
    if (said && said.n !== before?.said?.n && said.outcome !== "wait") this.beeper.sign(said.outcome);
    const lost = this.number.halted !== null;
    if (lost && !this.lost) this.beeper.sign("lost");
    this.lost = lost;
  }

  show(fresh) {
    const news = this.snapshot && fresh.seq !== this.snapshot.seq;
    if (news) this.countdown.cancel(); // the big button is another now
    if (news && !this.working && performance.now() - this.toldAt > READ_MS) this.tell("");
    const before = this.snapshot;
    this.elsewhere(before?.said, fresh.said);
    this.take(fresh);
    this.signal(before);
  }

  // What became of a press that came from no screen: a switch's, or the gauge's key's.
  elsewhere(before, said) {
    if (before?.say === said?.say) return;
    if (said?.outcome === "wait") this.tell(said.say, "wait");
    else if (before?.outcome === "wait" && !this.working) this.tell("");
  }

  settle(settling) {
    this.number.setSettling(settling);
    if (settling) this.tell(words.hold_still, "wait");
    else if (part("sent", this.root).dataset.kind === "wait") this.tell(this.working ? words.working : "", "wait");
    this.draw();
  }

  draw() {
    super.draw();
    if (!this.snapshot) return;
    const [primaryBox, otherBox, rareBox] = ["primary", "others", "rare"].map((name) => part(name, this.root));
    drawActions({ primaryBox, otherBox, rareBox }, this.actions, (action) => this.press(action));
    this.shut();
  }

  // Buttons are shut while an answer is awaited, those too that the next step brings before it.
  shut() {
    const shut = String(this.working);
    for (const button of this.root.querySelectorAll(`[data-action]:not([aria-disabled=${shut}])`)) {
      button.setAttribute("aria-disabled", shut);
    }
  }

  async press(action) {
    this.countdown.cancel();
    if (!action || this.working || this.box.open) return;
    const seen = this.snapshot;
    let entered = {};
    if (action.fields?.length || action.confirm) {
      entered = await this.box.ask(withPins(action));
      if (entered === null) return;
    }
    const { fields, pins } = parted(entered);
    // After an unanswered press the same command goes again, not a second one.
    const again = this.unsent && this.unsent.about === about(action, fields) && this.unsent.body.expects_seq === seen.seq;
    const body = again ? { ...this.unsent.body, pins } : command(seen, action, fields, "console", pins);
    this.pressed = body.id;
    this.work(true);
    this.tell(words.working, "wait");
    const answer = await send(this.machine, body, (text) => this.tell(text, "wait"));
    this.unsent = answer.outcome === "unreached" ? { about: about(action, fields), body } : null;
    this.work(false);
    this.tell(answer.say, answer.outcome);
    if (answer.outcome === "stale") await this.refresh();
  }

  pressNumbered(key) {
    if (key === "c") return this.countdown.toggle();
    const action = this.actions.find((each) => each.key.toLowerCase() === key);
    this.press(action);
    return action !== undefined;
  }

  work(working) {
    this.working = working;
    setData(this.root, "working", String(working));
    this.shut();
  }

  tell(text, kind = "") {
    const line = part("sent", this.root);
    this.toldAt = performance.now();
    setData(line, "kind", kind);
    setText(line, text);
  }

  async refresh() {
    try {
      const answer = await fetch(`/api/machines/${encodeURIComponent(this.machine)}/snapshot`);
      if (answer.ok) this.take(await answer.json());
    } catch {
      // The stream brings it as soon as there is a line again.
    }
  }
}

function about(action, fields) {
  return JSON.stringify([action.kind, action.payload, fields]);
}
