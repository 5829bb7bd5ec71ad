// Setting the shop up: who does it is asked once and kept by this page alone, until it is left.

import { el, openButtons, part, rebuild, setText, show } from "./dom.js";
import { Learning } from "./learn.js";
import { post } from "./post.js";
import { Ports } from "./set_up_ports.js";
import { words } from "./words.js";

const WITHIN_MS = 15000;
const AGAIN_MS = 500;
const data = document.body.dataset;
const form = Object.fromEntries(["who", "gauge", "learn", "machine", "change"].map((name) => [name, part(name)]));
const ports = new Ports(form.gauge);
let who = {};
let seen = data.seen;

function fields(of) {
  const all = [...new FormData(of)].map(([key, value]) => [key, value.trim()]);
  return Object.fromEntries(all.filter(([, value]) => value));
}

function tell(of, say, problems = []) {
  part("told", of).replaceChildren(
    ...(say ? [el("p", {}, say)] : []),
    ...(problems.length ? [el("ul", {}, ...problems.map((each) => el("li", {}, each)))] : []),
  );
}

// What is sent while an answer is awaited is sent once.
async function send(of, path, body) {
  const buttons = [...of.querySelectorAll("button")];
  for (const each of buttons) each.disabled = true;
  try {
    const response = await post(`/api/set-up/${path}`, body, WITHIN_MS);
    const answer = await response.json();
    tell(of, response.ok ? "" : answer.reason, answer.problems);
    if (response.ok && answer.seen) seen = answer.seen;
    return response.ok ? answer : null;
  } catch {
    tell(of, words.unreached);
    return null;
  } finally {
    for (const each of buttons) each.disabled = false;
  }
}

// Where something that must be filled in is not, its place is gone to.
function whole(of) {
  const missing = of.querySelector(":invalid:not(fieldset)");
  if (missing) missing.reportValidity();
  return !missing;
}

function lead(to) {
  show(to, true);
  to.querySelector("h2").focus();
  to.scrollIntoView();
}

async function onWho() {
  const { person, pin, shop = "" } = fields(form.who);
  if (!(await send(form.who, "who", { person, pin, shop }))) return;
  who = { person, pin };
  show(form.who, false);
  await gauges();
  show(form.change, form.change.querySelector("[data-change]") !== null);
  beginGauge();
  lead(form.change.hidden ? form.gauge : form.change);
}

function beginGauge() {
  show(form.gauge, true);
  show(form.learn, true);
  ports.begin();
}

// What the face shows is asked of a number alone: without one there is nothing to say yes to.
async function onGauge() {
  if (!ports.unit) return tell(form.gauge, part("why", form.gauge).textContent || words.unreached);
  const { counts_up, ...told } = fields(form.gauge);
  const gauge = { ...told, port: ports.chosen, counts_up: counts_up === "yes" };
  const answer = await send(form.gauge, "gauge", { ...who, seen, gauge });
  if (!answer) return;
  ports.end();
  if (ports.unit) form.machine.elements.unit.value = ports.unit;
  inUnit();
  await onward(answer);
}

// A gauge is there: its machine is next, unless something is missing in its file.
async function onward({ key, missing }) {
  await gauges();
  show(form.gauge, false);
  show(form.learn, false);
  lead(missing.length ? form.change : form.machine);
  if (!missing.length) form.machine.elements.gauge.value = key;
}

// While a gauge is learned there is nothing else on the page; a page loaded anew asks again who it is.
const learning = new Learning({
  aside() {
    ports.end();
    for (const each of Object.values(form)) show(each, false);
  },
  async ended(kept) {
    if (kept) seen = kept.seen;
    show(part("talk"), false);
    if (!who.pin) return lead(form.who);
    if (kept) return onward(kept);
    beginGauge();
    lead(form.gauge);
  },
});

async function onLearn() {
  await ports.end();
  const { sends, request = "" } = fields(form.learn);
  await learning.begin(who, { port: ports.chosen, sends, request }, (say) => tell(form.learn, say));
  if (!form.learn.hidden && ports.chosen) ports.show();
}

// The gauges that a machine can have, and those whose files lack something, each with its places.
async function gauges() {
  const answer = await fetch("/api/set-up", { signal: AbortSignal.timeout(WITHIN_MS) }).catch(() => null);
  if (!answer?.ok) return;
  const { gauges: there, incomplete } = await answer.json();
  const choices = form.machine.elements.gauge;
  rebuild(choices, there, () => there.map(({ key, name, number }) => el("option", { value: key }, `${name}, ${number}`)));
  show(form.machine, there.length > 0);
  rebuild(part("gaps"), incomplete, () => incomplete.flatMap(({ key, missing }) =>
    [el("p", { class: "caution" }, data.lacks.replace("{gauge}", key)), ...missing.map((each) => gap(key, each))]));
}

function gap(gauge, { key, say }) {
  const type = key === "calibration_due" ? "date" : "text";
  const made = el("form", { novalidate: true, "data-change": key, "data-key": gauge },
    el("label", { class: "line" }, el("span", {}, say), " ",
      el("input", { name: "value", type, maxlength: 80, autocomplete: "off", required: true })),
    el("button", { type: "submit" }, data.put));
  on(made, () => onChange(made));
  return made;
}

async function onMachine() {
  const answer = await send(form.machine, "machine", { ...who, seen, machine: fields(form.machine) });
  if (!answer) return;
  // What is saved is not saved again, should an audit be open that the reading anew waits for.
  show(form.machine, false);
  lead(form.change);
  if (await anew(form.change)) await until(answer.key);
}

async function onChange(of) {
  const change = { what: of.dataset.change, key: of.dataset.key, value: fields(of).value ?? "" };
  const answer = await send(form.change, "change", { ...who, seen, change });
  if (!answer) return;
  const first = form.machine.hidden;
  await gauges();
  tell(form.change, data.saved.replace("{file}", answer.key));
  if (first && !form.machine.hidden) lead(form.machine);
}

async function anew(of) {
  const answer = await send(of, "anew", who);
  if (answer) tell(of, answer.say);
  return answer;
}

// The service begins anew: this waits until it serves, with that machine where one was added.
async function until(machine) {
  for (;;) {
    await new Promise((done) => setTimeout(done, AGAIN_MS));
    try {
      const answer = await fetch("/api/machines", { signal: AbortSignal.timeout(WITHIN_MS) });
      const there = answer.ok ? (await answer.json()).map((each) => each.key) : [];
      if (machine === "" && answer.ok) return location.assign("/");
      if (there.includes(machine)) return location.assign(`/machines/${encodeURIComponent(machine)}/console`);
    } catch {
      // It is on its way down or up.
    }
  }
}

function inUnit() {
  for (const each of form.machine.querySelectorAll("[data-part=in-unit]")) setText(each, form.machine.elements.unit.value);
}

function on(of, then) {
  of.addEventListener("submit", (event) => {
    event.preventDefault();
    if (whole(of)) then();
  });
}

on(form.who, onWho);
on(form.gauge, onGauge);
on(form.learn, onLearn);
on(form.machine, onMachine);
for (const each of form.change.querySelectorAll("[data-change]")) on(each, () => onChange(each));
part("anew").addEventListener("click", async () => (await anew(form.change)) && until(""));
form.machine.addEventListener("change", inUnit);
openButtons();
