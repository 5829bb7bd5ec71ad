// On the Pi's own wall: the code that pairs a screen, for as long as somebody is to type it.

import { part } from "./dom.js";

const EVERY_MS = 2000;
const HALF = 4;

async function look() {
  let code = "";
  try {
    const answer = await fetch("/api/pairing", { signal: AbortSignal.timeout(EVERY_MS) });
    if (answer.ok) ({ code } = await answer.json());
  } catch {
    // No line: then no code either.
  }
  part("pairing-code").textContent = `${code.slice(0, HALF)} ${code.slice(HALF)}`;
  part("pairing").hidden = code === "";
  setTimeout(look, EVERY_MS);
}

look();
