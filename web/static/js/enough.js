// A drawing's callout is asked for and held against the last sweep; the server says all of it.

import { newId, send } from "./commands.js";
import { el, openButtons, part, setData, setText, show } from "./dom.js";
import { post } from "./post.js";
import { words } from "./words.js";

const machine = document.body.dataset.machine;
const form = part("form");
const box = part("answer");
let shown = null;

function choose() {
  for (const group of form.querySelectorAll("[data-of]")) {
    group.hidden = group.dataset.of !== form.elements.of.value;
    group.disabled = group.hidden;
  }
  clear();
}

// What was answered holds for what was typed then.
function clear() {
  shown = null;
  show(box, false);
}

function callout() {
  const { of, ...sizes } = Object.fromEntries(new FormData(form));
  const filled = Object.entries(sizes).map(([key, text]) => [key, text.trim()]);
  return { [of]: Object.fromEntries(filled.filter(([, text]) => text)) };
}

function draw({ word = "", say = "", problems = [], basis = "", since = "", alone = "" }) {
  setData(box, "word", word);
  setText(part("say"), say);
  part("problems").replaceChildren(...problems.map((each) => el("li", {}, each)));
  for (const [name, text] of Object.entries({ basis, since, alone })) setText(part(name), text);
  show(part("keep"), word !== "");
  show(part("kept"), false);
  show(box, true);
}

async function ask(event) {
  event.preventDefault();
  const asked = callout();
  try {
    const response = await post(`/api/machines/${encodeURIComponent(machine)}/enough`, asked, 10000);
    const answer = await response.json();
    shown = response.ok ? { callout: asked, audit: answer.audit } : null;
    draw(response.ok ? answer : { say: answer.reason, problems: answer.problems });
  } catch {
    shown = null;
    draw({ say: words.unreached });
  }
}

async function keep() {
  if (!shown) return;
  const button = part("keep");
  button.disabled = true;
  const body = { id: newId(), kind: "keep-answer", payload: shown, actor: "console" };
  const { outcome, say } = await send(machine, body, (text) => setText(part("since"), text));
  button.disabled = false;
  if (outcome !== "ok") return draw({ say });
  show(button, false);
  show(part("kept"), true);
}

form.addEventListener("submit", ask);
form.addEventListener("change", (event) => (event.target.name === "of" ? choose() : clear()));
part("keep").addEventListener("click", keep);
choose();
openButtons();
