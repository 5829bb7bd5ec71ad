// On the Pi's own wall: says that this page is drawn, which one that stands still cannot, and
// takes a pointer at rest off it.

import { post } from "./post.js";

const EVERY_MS = 5000;
const REST_MS = 3000;

async function drawn() {
  setTimeout(() => requestAnimationFrame(drawn), EVERY_MS);
  try {
    const answer = await post("/api/wall/drawn", {}, EVERY_MS);
    await answer.text(); // unread it would keep its line
  } catch {
    // No line: said next time.
  }
}

let resting = 0;
function moved() {
  delete document.documentElement.dataset.pointer;
  clearTimeout(resting);
  resting = setTimeout(rest, REST_MS);
}

function rest() {
  document.documentElement.dataset.pointer = "rests";
}

addEventListener("pointermove", moved);
rest();
requestAnimationFrame(drawn);
