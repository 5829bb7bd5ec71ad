// Lessons and class: a button sends its form, and the page is asked for anew when there is news.

import { openButtons, part, setText } from "./dom.js";
import { post } from "./post.js";
import { words } from "./words.js";

const LOOK_MS = 2000;
const WORK_MS = 30000;
const address = `/api/machines/${encodeURIComponent(document.body.dataset.machine)}/practice`;
let known = "";

async function send(event) {
  event.preventDefault();
  const { target: form, submitter } = event;
  const fields = [...form.elements].filter((each) => each.name && each.type !== "submit");
  const sent = Object.fromEntries(fields.map((each) => [each.name, each.type === "number" ? each.valueAsNumber : each.value]));
  sent[submitter.name] = submitter.name === "nth" ? JSON.parse(submitter.value) : submitter.value;
  submitter.disabled = true;
  try {
    const answer = await post(`${address}/${form.dataset.post}`, sent, WORK_MS);
    if (answer.ok) return location.reload();
    setText(part("told"), (await answer.json()).reason);
  } catch {
    setText(part("told"), words.unreached);
  }
  submitter.disabled = false;
}

// Not while somebody is typing: what stands in a field would be lost.
async function look() {
  try {
    const { runs } = await (await fetch(`${address}/lessons`, { signal: AbortSignal.timeout(WORK_MS) })).json();
    const news = JSON.stringify(runs);
    if (known && news !== known && document.activeElement?.tagName !== "INPUT") return location.reload();
    known ||= news;
  } catch {
    // The next look tells.
  }
  setTimeout(look, LOOK_MS);
}

for (const form of document.querySelectorAll("[data-post]")) form.addEventListener("submit", send);
openButtons();
look();
