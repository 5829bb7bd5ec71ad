// The step in words: instruction, notes, cautions, alerts, question, verdict, progress.

import { el, part, rebuild, setData, setText, show } from "./dom.js";
import { filled, words } from "./words.js";

// `number` knows whether there is one to act upon: else the instruction is to stop.
// `said`: what became of a press, made here or elsewhere.
export function drawStep(root, snapshot, view, { settling, halted }, said) {
  setText(part("reason", root), view.reason);
  setText(part("arm", root), view.arm ?? "");
  setData(part("say", root), "halted", String(halted !== null));
  setText(part("title", root), halted?.say ?? view.title);
  setText(part("detail", root), halted?.detail ?? view.detail);
  rebuild(part("notes", root), [...view.notes, ...(view.decides ?? [])], (notes) => notes.map((note) => el("li", {}, note)));
  rebuild(part("cautions", root), view.cautions, (all) => all.map((caution) =>
    el("li", { class: "narrow" }, el("span", { class: "sign", "aria-hidden": "true" }), el("span", {}, caution))));
  rebuild(part("alerts", root), alerts(snapshot, view, settling, said), (all) => all.map(alertBox));
  drawSteps(root, view.steps);
  drawVerdict(part("verdict", root), view.verdict);
}

function alerts(snapshot, view, settling, said) {
  const [warned, amiss] = [true, false].map((of) => snapshot.faults.filter(({ kind }) => (kind === "warning") === of));
  const all = amiss.map(({ say }) => ({ kind: "fault", say }));
  if (!snapshot.recording.ok) {
    all.unshift({ kind: "fault", say: snapshot.recording.say || words.not_recorded });
  }
  if (said?.outcome === "wait") all.push({ kind: "settling", say: said.say });
  else if (settling) all.push({ kind: "settling", say: words.hold_still });
  if (said?.outcome === "taken") all.push({ kind: "taken", say: said.say });
  if (said?.outcome === "refused") all.unshift({ kind: "refused", say: said.say });
  if (view.message) all.push({ kind: "message", head: view.headline, say: view.message.say });
  all.push(...view.warnings.map((say, at) => ({ kind: "warning", head: at || view.message ? "" : view.headline, say })));
  if (view.question) {
    const say = view.question.say === view.title ? "" : view.question.say;
    all.push({ kind: "question", say, answers: view.question.answers });
  }
  return [...all, ...warned.map(({ say }) => ({ kind: "message", say, aside: true }))];
}

function alertBox(alert) {
  const answers = alert.answers?.map((answer) => el("li", {}, answer.say));
  return el("div", { class: "alert", "data-kind": alert.kind, "data-aside": alert.aside ?? null, "data-bare": alert.say === "" },
    el("span", { class: "sign", "aria-hidden": "true" }),
    el("div", { class: "narrow" }, alert.head ? el("p", { class: "head" }, alert.head) : null, alert.say ? el("p", {}, alert.say) : null, answers ? el("ol", {}, ...answers) : null));
}

function drawSteps(root, steps) {
  rebuild(part("steps", root), steps, (all) => all.map((step) => el("li", { "data-state": step.state })));
  const at = steps.findIndex((step) => step.state === "now");
  const say = at < 0 ? "" : filled(words.stage, { stage: steps[at].say, n: at + 1, of: steps.length });
  setText(part("step-say", root), say);
  show(part("steps-box", root), say);
}

function drawVerdict(box, verdict) {
  show(box, verdict);
  if (!verdict) return;
  setData(box, "word", verdict.word);
  rebuild(box, verdict, () => [
    el("p", { class: "verdict-word narrow" }, el("span", { class: "sign", "aria-hidden": "true" }), words.verdict[verdict.word]),
    el("p", { class: "verdict-say" }, verdict.say),
  ]);
}
