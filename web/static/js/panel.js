// The hands on the practice mill: its operations come as data.

import { el, part, rebuild, setText } from "./dom.js";
import { drawMill } from "./mill_picture.js";

const POLL_MS = 300;
const REPEAT_MS = 160;
const READ_MS = 4000;

export class Panel {
  constructor(root, machine) {
    this.root = root;
    this.address = `/api/machines/${encodeURIComponent(machine)}/practice`;
    this.held = null;
    this.readUntil = 0;
    addEventListener("pointerup", () => { this.held = null; });
    addEventListener("pointercancel", () => { this.held = null; });
    addEventListener("blur", () => { this.held = null; });
    this.poll();
  }

  async poll() {
    for (;;) {
      if (!document.hidden) await this.ask({});
      await pause(POLL_MS);
    }
  }

  async ask(request) {
    try {
      const answer = await fetch(this.address, { ...request, signal: AbortSignal.timeout(30000) });
      const state = await answer.json();
      if (answer.ok) this.draw(state);
      else this.refuse(state.reason);
      return answer.ok;
    } catch {
      this.say(this.root.dataset.lost);
      return false;
    }
  }

  say(text) {
    setText(part("practice-say", this.root), text);
  }

  // A reason stays long enough to be read, though the state is asked for all the time.
  refuse(reason) {
    this.say(reason);
    this.readUntil = performance.now() + READ_MS;
  }

  draw(state) {
    if (performance.now() > this.readUntil) this.say(state.say);
    setText(part("practice-aim", this.root), state.lesson ?? "");
    drawMill(part("mill", this.root), state);
    const operations = state.operations;
    const placed = operations.filter((operation) => operation.place);
    const listed = grouped(operations.filter((operation) => !operation.place && !operation.now));
    this.drawButtons(part("practice-now", this.root), operations.filter((operation) => operation.now), (buttons) => buttons);
    this.drawButtons(part("plan", this.root), placed, (buttons) => [
      el("span", { class: "plan-ring", "aria-hidden": "true" }), ...buttons]);
    this.drawGroups(listed);
  }

  drawGroups(listed) {
    const all = Object.values(listed).flat();
    this.drawButtons(part("groups", this.root), all, (buttons) =>
      Object.entries(listed).map(([group, own]) =>
        el("fieldset", { class: "group" }, el("legend", {}, group),
          el("div", { class: "group-buttons" }, ...own.map((operation) => buttons[all.indexOf(operation)])))));
  }

  // A button that is held must outlive a change of the state: buttons are made
  // anew only when the operations are others, and the focus stays where it was.
  drawButtons(box, operations, arrange) {
    const shape = operations.map((each) => [each.group, each.verb, each.args, each.say, each.place, each.hold, each.on]);
    const focused = box.contains(document.activeElement) ? document.activeElement.textContent : null;
    const anew = rebuild(box, shape, () => arrange(operations.map((operation) => this.button(operation))));
    const buttons = [...box.querySelectorAll("button")];
    if (anew && focused !== null) (buttons.find((node) => node.textContent === focused) ?? buttons[0])?.focus();
  }

  button(operation) {
    const node = el("button", {
      type: "button",
      "data-verb": operation.verb,
      "data-place": operation.place || null,
      "aria-pressed": operation.place ? String(operation.on) : null,
    }, operation.say);
    node.addEventListener("pointerdown", (event) => {
      if (operation.hold && event.button === 0) this.repeat(operation, node);
    });
    node.addEventListener("click", (event) => {
      // A pointer on a repeating button was served from the moment it went down.
      if (event.detail > 0) node.blur();
      if (!operation.hold || event.detail === 0) this.run(operation, node);
    });
    return node;
  }

  async repeat(operation, node) {
    this.held = node;
    while (this.held === node && (await this.run(operation, node))) await pause(REPEAT_MS);
  }

  run(operation, node) {
    if (node.getAttribute("aria-pressed") === "true") return Promise.resolve(true);
    return this.ask({
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify({ verb: operation.verb, args: operation.args }),
    });
  }
}

function grouped(operations) {
  const groups = {};
  for (const operation of operations) (groups[operation.group] ??= []).push(operation);
  return groups;
}

function pause(ms) {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
