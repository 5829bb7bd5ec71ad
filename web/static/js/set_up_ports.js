// The ports there are, which of them talks, and what comes from the one that is chosen.

import { el, part, setData, setText } from "./dom.js";
import { post } from "./post.js";

const WITHIN_MS = 10000;
const PAUSE_MS = 250;
const data = document.body.dataset;

const wait = (ms) => new Promise((done) => setTimeout(done, ms));

export class Ports {
  constructor(form) {
    this.form = form;
    this.turn = 0; // each look begins a new one; what an older one hears counts no more
    this.unit = "";
    part("look", form).addEventListener("click", () => this.begin());
    form.addEventListener("change", (event) => {
      if (event.target.name === "port" || event.target.name === "example") this.show();
    });
  }

  get chosen() {
    return this.form.querySelector("[name=port]:checked")?.value || "";
  }

  // Resolves once nobody listens any more on this page's behalf.
  async end() {
    this.turn += 1;
    await this.hearing;
  }

  // All ports are listened to, one after the other, until one talks.
  async begin() {
    const turn = (this.turn += 1);
    let found = [];
    try {
      const answer = await fetch("/api/set-up", { signal: AbortSignal.timeout(WITHIN_MS) });
      if (answer.ok) found = (await answer.json()).ports;
    } catch {
      // No line: then no port either.
    }
    if (turn !== this.turn) return;
    this.draw(found);
    const examples = [...this.form.elements.example.options].map((each) => each.value);
    for (const { port, gauge } of found) {
      if (gauge) continue;
      const like = await this.talks(turn, port, examples);
      if (turn !== this.turn) return;
      if (like && !this.chosen) {
        this.form.querySelector(`[name=port][value="${CSS.escape(port)}"]`).checked = true;
        this.form.elements.example.value = like;
      }
    }
    if (this.chosen) this.show();
  }

  draw(found) {
    const lines = found.map(({ port, gauge, own }) =>
      el("label", { class: "port" },
        el("input", { type: "radio", name: "port", value: port, required: true, disabled: Boolean(gauge) }),
        el("span", {}, port.split("/").at(-1), own ? ` (${data.own})` : "",
          el("small", { "data-state": port }, gauge ? data.used.replace("{gauge}", gauge) : ""))));
    part("ports", this.form).replaceChildren(...(lines.length ? lines : [el("p", {}, data.none)]));
  }

  async talks(turn, port, examples) {
    this.mark(port, data.hearing);
    for (const example of examples) {
      const heard = await this.heard(port, example);
      if (turn !== this.turn) return "";
      if (heard?.text && heard.good > heard.bad) {
        this.mark(port, `${data.talks}: ${heard.text} ${heard.unit}`);
        return example;
      }
    }
    this.mark(port, data.quiet);
    return "";
  }

  mark(port, say) {
    setText(this.form.querySelector(`[data-state="${CSS.escape(port)}"]`), say);
  }

  heard(port, example) {
    this.hearing = this.hear(port, example);
    return this.hearing;
  }

  async hear(port, example) {
    try {
      const answer = await post("/api/set-up/listen", { port, example }, WITHIN_MS);
      const told = await answer.json();
      return answer.ok ? told : { text: "", unit: "", good: 0, bad: 0, say: told.reason };
    } catch {
      return null;
    }
  }

  // What comes from the chosen port, again and again, until another is chosen or the gauge saved.
  async show() {
    const turn = (this.turn += 1);
    while (turn === this.turn) {
      const heard = await this.heard(this.chosen, this.form.elements.example.value);
      if (turn !== this.turn) return;
      this.unit = heard?.unit ?? "";
      if (heard?.step) this.form.elements.resolution.value ||= heard.step;
      setText(part("number", this.form), heard?.text ? `${heard.text} ${heard.unit}` : "");
      setText(part("why", this.form), heard?.say ?? "");
      setData(part("face", this.form), "heard", String(Boolean(heard?.text)));
      await wait(PAUSE_MS);
    }
  }
}
