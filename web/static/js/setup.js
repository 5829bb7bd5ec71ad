// Keeps the setup page fresh: status, counts, raw bytes, what was learned, disk and ledger.

import { el, part, rebuild, setData, setText } from "./dom.js";

const EVERY_MS = 1000;

function drawBytes(card, name, raw) {
  const box = part(`${name}-box`, card);
  if (!box) return;
  box.hidden = raw.length === 0;
  rebuild(part(name, card), raw, (all) => all.map((each) =>
    el("li", {}, el("code", {}, each.text), el("code", { class: "hex" }, each.hex))));
}

function drawGauge(gauge) {
  const card = document.querySelector(`[data-gauge="${CSS.escape(gauge.key)}"]`);
  if (!card) return;
  setData(part("status", card), "code", gauge.code);
  setText(part("say", card), gauge.say);
  rebuild(part("warnings", card), gauge.warnings, (all) => all.map((say) => el("li", {}, say)));
  if (!gauge.wire) return;
  setText(part("good", card), String(gauge.wire.good));
  setText(part("bad", card), String(gauge.wire.bad));
  setText(part("damaged", card), String(gauge.wire.damaged));
  drawBytes(card, "frames", gauge.wire.frames);
  drawBytes(card, "last", gauge.wire.last ? [gauge.wire.last] : []);
  drawBytes(card, "last-bad", gauge.wire.last_bad ? [gauge.wire.last_bad] : []);
}

function drawGroups(card, groups) {
  for (const group of card ? groups : []) {
    const box = card.querySelector(`[data-group="${CSS.escape(group.key)}"]`);
    setText(part("note", box), group.note);
    rebuild(part("facts", box), group.facts, (all) => all.map((fact) =>
      el("div", {}, el("dt", {}, fact.say), el("dd", {}, fact.value))));
  }
}

function draw(view) {
  view.gauges.forEach(drawGauge);
  for (const machine of view.machines) {
    drawGroups(document.querySelector(`[data-machine="${CSS.escape(machine.key)}"]`), machine.groups);
  }
  drawGroups(document.querySelector("[data-shop]"), view.shop.groups);
  for (const name of ["problem", "room", "head"]) setText(part(name), view.ledger[name]);
  setText(part("rows"), String(view.ledger.rows));
}

async function refresh() {
  if (!document.hidden) {
    try {
      const answer = await fetch("/api/setup", { signal: AbortSignal.timeout(5000) });
      if (!answer.ok) throw new Error(answer.statusText);
      draw(await answer.json());
      part("lost").hidden = true;
    } catch {
      part("lost").hidden = false;
    }
  }
  setTimeout(refresh, EVERY_MS);
}

refresh();
