// A gauge being learned: what the service tells, believes and asks is drawn again and again; it
// keeps all of it, so that a page loaded anew goes on where the last one was.

import { el, part, rebuild, setText, show } from "./dom.js";
import { post } from "./post.js";
import { words } from "./words.js";

const EVERY_MS = 300;
const WITHIN_MS = 10000;
const PATH = "/api/set-up/learn";

export class Learning {
  // `page`: what else is on it steps aside while a gauge is learned (`aside`), and goes on (`ended`).
  constructor(page) {
    this.page = page;
    this.box = part("talk");
    this.form = part("learn-answer");
    this.asked = 0; // what was asked for before an answer went out is not drawn after it
    this.follows = false;
    this.form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.submit();
    });
    for (const what of ["skip", "leave"]) {
      part(`learn-${what}`).addEventListener("click", () => this.send("press", { what }));
    }
    this.refresh();
  }

  async begin(who, learn, told) {
    if (await this.ask(`${PATH}/begin`, { ...who, learn }, told)) this.follow();
  }

  // One that is under way when the page is loaded is gone on with; of one that is over it says how.
  async refresh() {
    if (document.hidden) setText(part("believed"), this.box.dataset.none);
    else await this.ask(PATH, null, (say) => this.heard(say));
    if (this.follows) setTimeout(() => this.refresh(), EVERY_MS);
  }

  follow() {
    if (this.follows) return;
    this.follows = true;
    this.page.aside();
    this.box.scrollIntoView();
    setTimeout(() => this.refresh(), EVERY_MS);
  }

  async ask(path, body, told) {
    const mine = ++this.asked;
    try {
      const response = await (body ? post(path, body, WITHIN_MS) : fetch(path, { signal: AbortSignal.timeout(WITHIN_MS) }));
      const answer = await response.json();
      if (mine !== this.asked) return false;
      told(response.ok ? "" : answer.reason, response.ok);
      if (response.ok) this.draw(answer);
      return response.ok;
    } catch {
      if (mine === this.asked) {
        told(words.unreached);
        setText(part("believed"), this.box.dataset.none);
      }
      return false;
    }
  }

  // What was wrong with an answer stands until the next one; that nobody answered, until somebody does.
  heard(say) {
    if (say || part("learn-lost").textContent === words.unreached) this.tell(say);
  }

  tell(say) {
    setText(part("learn-lost"), say);
  }

  async send(path, body) {
    const buttons = [...this.box.querySelectorAll("button")];
    for (const each of buttons) each.disabled = true;
    await this.ask(`${PATH}/${path}`, body, (say) => this.tell(say));
    for (const each of buttons) each.disabled = false;
  }

  draw({ talk }) {
    show(this.box, talk !== null);
    if (!talk) return;
    const over = talk.state === "over";
    if (!over) this.follow();
    setText(part("learn-step"), talk.step);
    setText(part("learn-port"), `(${talk.port.split("/").at(-1)}, ${talk.person})`);
    show(part("learn-face"), !over && ["face", "press", undefined].includes(talk.question?.kind));
    setText(part("believed"), talk.believed || this.box.dataset.none);
    rebuild(part("learn-told"), talk.told, (told) => told.map((each) => el("p", {}, each)));
    setText(part("learn-ask"), talk.question?.say ?? "");
    show(part("leaving"), !over);
    show(part("learn-skip"), talk.may_skip);
    if (talk.may_skip && document.activeElement === document.body) part("learn-skip").focus();
    this.question(talk);
    if (over) this.end(talk);
  }

  end({ kept }) {
    if (!this.follows) return;
    this.follows = false;
    const on = el("button", { type: "button", class: "big" }, this.box.dataset.on);
    on.addEventListener("click", () => {
      on.remove();
      this.page.ended(kept);
    });
    this.form.replaceChildren(on);
    on.focus();
  }

  // The same question keeps its fields, whatever is typed in them.
  question({ question, believed }) {
    const inside = this.box.contains(document.activeElement) || document.activeElement === document.body;
    const made = rebuild(this.form, question?.number ?? 0, () => question ? this.fields(question, believed) : []);
    if (!made || !question) return;
    this.kind = question.kind;
    this.number = question.number;
    if (inside) (this.form.elements.value ?? this.form.querySelector("button")).focus();
  }

  fields({ kind, choices, may_skip: maySkip }, believed) {
    const { send, ready, without } = this.box.dataset;
    const button = (say, typed, big = false) => {
      const made = el("button", { type: "button", class: big && "big" }, say);
      made.addEventListener("click", () => this.answer(typed));
      return made;
    };
    const skip = maySkip ? [button(without, "")] : [];
    if (kind === "press") return [button(ready, "", true)];
    if (kind === "choice") return [...choices.map(({ typed, say }) => button(say, typed, true)), ...skip];
    const length = kind === "face" || kind === "length";
    const input = el("input", {
      name: "value", type: kind === "date" ? "date" : "text", maxlength: 80, autocomplete: "off", spellcheck: "false",
      inputmode: length ? "decimal" : kind === "speed" ? "numeric" : null, required: !maySkip, "aria-labelledby": "learn-ask",
    });
    return [
      el("div", { class: "typed" }, ...(kind === "face" ? [this.sign(input)] : []), input),
      ...(length ? [this.units(believed)] : []),
      el("button", { type: "submit", class: "big" }, send),
      ...skip,
    ];
  }

  // A telephone's keys for numbers may have no minus.
  sign(input) {
    const made = el("button", { type: "button" }, this.box.dataset.sign);
    made.addEventListener("click", () => {
      input.value = input.value.replace(/^(-?)(.*)/, (_, sign, rest) => sign ? rest : `-${rest}`);
      input.focus();
    });
    return made;
  }

  units(believed) {
    this.unit ??= believed.endsWith(" in") ? "in" : "mm";
    return el("fieldset", { class: "ticks" }, el("legend", {}, this.box.dataset.unit),
      ...["mm", "in"].map((unit) => el("label", {},
        el("input", { type: "radio", name: "unit", value: unit, checked: unit === this.unit }), ` ${unit}`)));
  }

  submit() {
    const input = this.form.elements.value;
    const unit = this.form.elements.unit?.value ?? "";
    if (!input || !input.reportValidity()) return;
    if (unit) this.unit = unit;
    const value = input.value.trim();
    this.answer(value && unit ? `${value} ${unit}` : value);
  }

  answer(typed) {
    this.send("answer", { number: this.number, typed });
  }
}
