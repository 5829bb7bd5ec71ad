// The paired screens: this one leaves by itself, any other by a PIN.

import { openButtons, part, setText } from "./dom.js";
import { post } from "./post.js";

const WITHIN_MS = 10000;

async function send(path, body) {
  try {
    const response = await post(path, body, WITHIN_MS);
    const answer = await response.json();
    setText(part("screens-told"), answer.say ?? answer.reason);
    if (response.ok) location.reload();
  } catch {
    setText(part("screens-told"), part("screens-told").dataset.lost);
  }
}

document.querySelector("[data-part=leave]")?.addEventListener("click", () => send("/api/screen/leave", {}));
for (const form of document.querySelectorAll("[data-unpair]")) {
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const { person, pin } = form.elements;
    send("/api/screens/unpair", { screen: form.dataset.unpair, person: person.value, pin: pin.value });
    pin.value = "";
  });
}
openButtons();
