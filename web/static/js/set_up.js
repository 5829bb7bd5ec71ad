// Setting the shop up: who does it is asked once and kept by this page alone, until it is left.

import { el, openButtons, part, setText, show } from "./dom.js";
import { post } from "./post.js";
import { Ports } from "./set_up_ports.js";
import { words } from "./words.js";

const WITHIN_MS = 15000;
const AGAIN_MS = 500;
const data = document.body.dataset;
const form = Object.fromEntries(["who", "gauge", "machine", "change"].map((name) => [name, part(name)]));
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
  show(form.change, form.change.querySelector("[data-change]") !== null);
  show(form.machine, form.machine.elements.gauge.options.length > 0);
  show(form.gauge, true);
  lead(form.change.hidden ? form.gauge : form.change);
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
  const { gauge: choices, unit } = form.machine.elements;
  choices.append(el("option", { value: answer.key }, `${told.name}, ${told.number}`));
  choices.value = answer.key;
  if (ports.unit) unit.value = ports.unit;
  inUnit();
  show(form.gauge, false);
  lead(form.machine);
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
  if (answer) tell(form.change, data.saved.replace("{file}", answer.key));
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
on(form.machine, onMachine);
for (const each of form.change.querySelectorAll("[data-change]")) on(each, () => onChange(each));
part("anew").addEventListener("click", async () => (await anew(form.change)) && until(""));
form.machine.addEventListener("change", inUnit);
openButtons();
