// The box that asks before an action: its fields, or only a yes.

import { part } from "./dom.js";
import { input, problem } from "./fields.js";
import { Pad } from "./pad.js";
import { filled, words } from "./words.js";

export class AskBox {
  constructor(root) {
    this.box = part("ask", root);
    this.form = part("ask-form", this.box);
    this.done = null;
    this.pad = new Pad(this.form);
    this.form.addEventListener("submit", (event) => { event.preventDefault(); this.submit(); });
    this.form.addEventListener("keydown", (event) => this.tick(event));
    this.form.addEventListener("input", (event) => this.clear(event.target.name));
    part("ask-no", this.box).addEventListener("click", () => this.finish(null));
    this.box.addEventListener("cancel", (event) => { event.preventDefault(); this.finish(null); });
  }

  get open() {
    return this.box.open;
  }

  // Resolves to the fields' values, or null when the person went back.
  ask(action) {
    this.fields = action.fields ?? [];
    part("ask-title", this.box).textContent = action.say;
    part("ask-text", this.box).textContent = action.confirm ?? "";
    part("ask-text", this.box).hidden = !action.confirm;
    part("ask-problem", this.box).textContent = "";
    part("ask-yes", this.box).textContent = action.fields?.length ? action.say : words.yes;
    part("ask-fields", this.box).replaceChildren(...this.fields.map(input));
    this.box.showModal();
    const first = this.fields.length
      ? part("ask-fields", this.box).querySelector("button, input")
      : part("ask-no", this.box);
    first?.focus();
    return new Promise((resolve) => { this.done = resolve; });
  }

  // A pedal has but the one key: it ticks a line and goes on to the next, and at last sends.
  tick(event) {
    const boxes = [...this.form.querySelectorAll("input[type=checkbox]")];
    const at = boxes.indexOf(event.target);
    if (event.key !== "Enter" || at < 0 || event.target.checked) return;
    event.preventDefault();
    if (event.repeat) return;
    event.target.checked = true;
    boxes[at + 1]?.focus();
  }

  // What is filled in instead of something else takes that back, and the other way round.
  clear(name) {
    for (const field of this.fields.filter((each) => each.instead_of)) {
      const other = { [field.name]: field.instead_of, [field.instead_of]: field.name }[name];
      for (const one of this.form.querySelectorAll(`[name="${CSS.escape(other ?? "")}"]`)) {
        if (one.type === "radio") one.checked = false;
        else one.value = "";
      }
    }
  }

  submit() {
    const values = {};
    const entered = new FormData(this.form);
    const instead = (field) => this.fields.some((each) => each.instead_of === field.name && entered.get(each.name)?.trim());
    for (const field of this.fields) {
      const value = String(entered.get(field.name) ?? "").trim();
      if (field.required && value === "" && !instead(field)) {
        return this.want(field, filled(words.fill_in, { field: field.say }));
      }
      const wrong = problem(field, value);
      if (wrong) return this.want(field, wrong);
      if (value !== "") values[field.name] = field.type === "tick" ? true : value;
    }
    this.finish(values);
  }

  // Says what is wanted, and goes to what can be pressed or typed there.
  want(field, say) {
    part("ask-problem", this.box).textContent = say;
    const line = this.form.querySelector(`[name="${CSS.escape(field.name)}"]`);
    (line?.closest("fieldset")?.querySelector("button, input") ?? line)?.focus();
  }

  finish(values) {
    this.pad.leave();
    this.box.close();
    this.done?.(values);
    this.done = null;
  }
}
