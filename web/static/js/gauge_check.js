// A gauge's check: begun once, then asked step by step; where it is, is asked again and again.

import { el, openButtons, part, rebuild, setText, show } from "./dom.js";
import { post } from "./post.js";
import { words } from "./words.js";

const EVERY_MS = 500;
const WITHIN_MS = 10000;
const PATH = "/api/gauge-check";
const form = part("begin");

function draw({ talk }) {
  const over = !talk || talk.state === "over";
  show(part("talk"), talk !== null);
  show(form, over);
  if (!talk) return;
  setText(part("whose"), `${talk.name}, ${talk.person}`);
  show(part("face"), !over);
  setText(part("number"), talk.face || document.body.dataset.none);
  rebuild(part("said"), talk.told, (told) => told.map((each) => el("p", {}, each)));
  setText(part("ask"), talk.ask ?? "");
  show(part("reads"), talk.state === "reads");
  choices(talk);
  show(part("table"), talk.lines.length > 0);
  setText(part("unit"), talk.unit);
  rebuild(part("lines"), talk.lines, (all) => all.map((each) =>
    el("tr", {}, ...[each.length, each.way, each.read, each.error].map((text) => el("td", {}, text)))));
  show(part("paper"), talk.row > 0);
  part("paper").firstElementChild.href = `${PATH}/${encodeURIComponent(talk.gauge)}/${talk.row}/certificate.pdf`;
}

// The same question keeps its buttons; the first of the next one takes over where the keyboard is.
function choices({ number, choices: all }) {
  const box = part("choices");
  const held = box.contains(document.activeElement);
  const made = rebuild(box, { number, all }, () => all.map((each, n) => {
    const button = el("button", { type: "button", class: n ? false : "big" }, each.say);
    button.addEventListener("click", () => send("answer", { number, typed: each.typed }, tell));
    return button;
  }));
  if (made && held) (box.firstElementChild ?? part("table")).focus();
}

// One that was asked before what was answered since would show the old question again.
let asked = 0;

async function ask(path, body, told) {
  const mine = ++asked;
  try {
    const response = await (body ? post(path, body, WITHIN_MS) : fetch(path, { signal: AbortSignal.timeout(WITHIN_MS) }));
    const answer = await response.json();
    if (mine !== asked) return false;
    told(response.ok ? "" : answer.reason);
    if (response.ok) draw(answer);
    return response.ok;
  } catch {
    if (mine === asked) {
      told(words.unreached);
      setText(part("number"), document.body.dataset.none);
    }
    return false;
  }
}

function tell(say) {
  setText(part("lost"), say);
}

async function send(path, body, told) {
  const buttons = [...document.querySelectorAll("button")];
  for (const each of buttons) each.disabled = true;
  const well = await ask(`${PATH}/${path}`, body, told);
  for (const each of buttons) each.disabled = false;
  return well;
}

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const missing = form.querySelector(":invalid:not(fieldset)");
  if (missing) {
    missing.reportValidity();
    return;
  }
  const { person, pin, ...check } = Object.fromEntries([...new FormData(form)].map(([key, value]) => [key, value.trim()]));
  if (await send("begin", { person, pin, check }, (say) => setText(part("told", form), say))) {
    form.elements.pin.value = "";
    part("whose").scrollIntoView();
  }
});

// What was wrong with an answer stands until the next one; that nobody answered, until somebody does.
function heard(say) {
  if (say || part("lost").textContent === words.unreached) tell(say);
}

async function refresh() {
  if (document.hidden) setText(part("number"), document.body.dataset.none);
  else await ask(PATH, null, heard);
  setTimeout(refresh, EVERY_MS);
}

openButtons();
refresh();
