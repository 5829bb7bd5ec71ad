// The pedal of the wall screen: it presses the console's big button.

import { primaryOf, undoOf } from "./actions.js";
import { command, send } from "./commands.js";
import { Pedal } from "./pedal.js";
import { words } from "./words.js";

const READ_MS = 10000;

export class Foot {
  // `wall` has: snapshot(), alive() (whether what it shows is of now), tell(outcome, text).
  constructor(machine, wall) {
    this.machine = machine;
    this.wall = wall;
    this.working = false;
    this.timer = null;
    new Pedal({
      asking: () => false,
      primary: () => this.press(primaryOf(this.actions), words.answer),
      undo: () => this.press(undoOf(this.actions), words.back),
      hint: (text) => this.say("wait", text),
    }, ["Enter", " "]);
  }

  get actions() {
    return this.wall.snapshot()?.pages.console.actions ?? [];
  }

  async press(action, without) {
    if (this.working) return this.say("wait", words.working);
    if (!this.wall.alive()) return this.say("refused", words.cut);
    if (!action) return this.say("refused", without);
    if (action.fields.length || action.confirm) return this.say("refused", words.fields);
    this.working = true;
    const body = command(this.wall.snapshot(), action, {}, "wall");
    const answer = await send(this.machine, body, (text) => this.say("wait", text));
    this.working = false;
    // What the service refuses it says on all screens, and so on this one.
    this.say("refused", answer.outcome === "unreached" ? answer.say : "");
  }

  say(outcome, text) {
    clearTimeout(this.timer);
    this.wall.tell(outcome, text);
    if (text) this.timer = setTimeout(() => this.wall.tell(outcome, ""), READ_MS);
  }
}
