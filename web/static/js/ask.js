// The box that asks before an action: its fields, or only a yes.

import { el, part } from "./dom.js";
import { filled, words } from "./words.js";

export class AskBox {
  constructor(root) {
    this.box = part("ask", root);
    this.form = part("ask-form", this.box);
    this.done = null;
    this.form.addEventListener("submit", (event) => { event.preventDefault(); this.submit(); });
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
      ? part("ask-fields", this.box).querySelector("input:not([type=radio]), input:checked, input")
      : part("ask-no", this.box);
    first?.focus();
    return new Promise((resolve) => { this.done = resolve; });
  }

  submit() {
    const values = {};
    const entered = new FormData(this.form);
    for (const field of this.fields) {
      const value = String(entered.get(field.name) ?? "").trim();
      if (field.required && value === "") {
        part("ask-problem", this.box).textContent = filled(words.fill_in, { field: field.say });
        this.form.querySelector(`[name="${CSS.escape(field.name)}"]`)?.focus();
        return;
      }
      if (value !== "") values[field.name] = value;
    }
    this.finish(values);
  }

  finish(values) {
    this.box.close();
    this.done?.(values);
    this.done = null;
  }
}

function input(field) {
  const need = field.required || field.value ? "" : ` ${words.may_stay_empty}`;
  if (field.type === "choice") {
    return el("fieldset", { class: "field" }, el("legend", {}, field.say + need),
      ...field.choices.map((choice) => el("label", { class: "tick" },
        el("input", { type: "radio", name: field.name, value: choice.key, checked: choice.key === field.value }), choice.say)));
  }
  const type = field.type === "date" ? "date" : "text";
  const required = field.required ? "true" : "false";
  return el("label", { class: "field" }, el("span", {}, field.say + need),
    el("input", { type, name: field.name, autocomplete: "off", maxlength: type === "text" ? 2000 : null, "aria-required": required }));
}
