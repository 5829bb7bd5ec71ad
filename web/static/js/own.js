// On the Pi's own wall: says that this page is drawn, which one that stands still cannot, and
// takes a pointer at rest off it.

import { post } from "./post.js";

const EVERY_MS = 5000;
const REST_MS = 3000;

function drawn() {
  post("/api/wall/drawn", {}, EVERY_MS).catch(() => {}); // no line: said next time
  setTimeout(() => requestAnimationFrame(drawn), EVERY_MS);
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
