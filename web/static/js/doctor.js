// What the doctor found, kept fresh on the setup page; looked at again on request.

import { el, part, rebuild, setText, show } from "./dom.js";
import { post } from "./post.js";

const OFTEN_MS = 500;
const SELDOM_MS = 10000;
const WITHIN_MS = 5000;

function line(each) {
  return el("li", { class: "status", "data-code": each.fine ? "ok" : "look" },
    el("span", { class: "mark", "aria-hidden": "true" }),
    el("span", {}, each.found, each.todo ? el("strong", {}, each.todo) : null));
}

function draw({ lines, busy }) {
  const fine = lines.filter((each) => each.fine);
  rebuild(part("doctor-amiss"), lines.filter((each) => !each.fine), (all) => all.map(line));
  rebuild(part("doctor-fine"), fine, (all) => all.map(line));
  setText(part("doctor-count"), String(fine.length));
  show(part("doctor-all"), fine.length);
  show(part("doctor-busy"), busy);
  show(part("doctor-well"), lines.length > 0 && fine.length === lines.length);
}

async function ask(how) {
  try {
    const answer = await how();
    if (!answer.ok) return SELDOM_MS;
    const found = await answer.json();
    draw(found);
    return found.busy ? OFTEN_MS : SELDOM_MS;
  } catch {
    return SELDOM_MS; // that the Pi does not answer the page says elsewhere
  }
}

let timer = null;

async function look(how) {
  clearTimeout(timer);
  const pause = await ask(how);
  timer = setTimeout(() => look(get), pause);
}

const get = () => fetch("/api/doctor", { signal: AbortSignal.timeout(WITHIN_MS) });

part("doctor-again")?.addEventListener("click", () => look(() => post("/api/doctor", {}, WITHIN_MS)));
look(get);
