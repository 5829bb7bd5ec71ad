// A screen is paired: the wall is asked to show a code, and what was typed is sent.

import { openButtons, part, setText } from "./dom.js";
import { post } from "./post.js";
import { words } from "./words.js";

const WITHIN_MS = 10000;
const form = part("form");

async function send(path, body) {
  try {
    const response = await post(path, body, WITHIN_MS);
    const answer = await response.json();
    setText(part("told"), answer.say ?? answer.reason);
    return response.ok;
  } catch {
    setText(part("told"), words.unreached);
    return false;
  }
}

part("ask").addEventListener("click", async () => {
  if (await send("/api/pairing/ask", {})) form.elements.code.focus();
});
form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const { code, name } = form.elements;
  if (await send("/api/pairing", { code: code.value, name: name.value })) location.assign("/");
});
openButtons();
