// All that is to be read is on the screen, and nothing smaller than it may be: first what may be
// smaller shrinks, then lines that stand on the console too give way, then letters are set narrower.

import { part } from "./dom.js";

const SIZES = [1, 0.75, 0.5, 0.25, 0];
const WIDTHS = [0.92, 0.84, 0.76, 0.68, 0.6, 0.52];
const NARROWEST_NAME = 0.6;
const SPARE_PX = 2;

export function fitWall(root) {
  const main = part("main", root);
  for (const line of root.querySelectorAll(".strip-line, .verdict-word")) fitLine(line);
  root.querySelectorAll(".spot span").forEach(fitSpot);
  const giveWay = mayGo(root);
  for (const each of giveWay) each.hidden = false;
  main.style.setProperty("--narrow", 1);
  const news = part("cut-off", root);
  const boxes = [main, ...main.children].filter((box) =>
    box !== news && getComputedStyle(box).visibility !== "hidden");
  // A box that is pressed together is measured by itself: what it lies in takes it for as wide as it was.
  const pressed = [...main.querySelectorAll(".narrow")].filter((box) => !news?.contains(box));
  const fits = () => boxes.every((box) => box.scrollHeight <= box.clientHeight + SPARE_PX)
    && pressed.every((box) => box.scrollWidth <= box.clientWidth + SPARE_PX);
  const sized = (size) => { main.style.setProperty("--fit", size); return fits(); };
  const narrowed = (width) => { main.style.setProperty("--narrow", width); return fits(); };
  const without = (line) => { line.hidden = true; return fits(); };
  if (!SIZES.some(sized) && !giveWay.some(without)) WIDTHS.some(narrowed);
  if (news) fitNews(news);
  // "Hold still" covers the instruction exactly.
  main.style.setProperty("--say-height", `${part("say", root).offsetHeight}px`);
}

// The last first; one caution stays, and the first of what came out.
function mayGo(root) {
  const lines = (name, kept) => [...part(name, root).children].slice(kept).reverse();

  return [...lines("notes", 0), ...lines("cautions", 1), ...[...root.querySelectorAll(".figures li")].slice(1)
    .filter((line) => !line.dataset.axis).reverse()];
}

// A name that would have to be narrower still is left to the instruction: a mark stands for it.
function fitSpot(line) {
  const spot = line.parentNode;
  delete spot.dataset.long;
  line.style.transform = "";
  const room = (spot.clientWidth - 2 * SPARE_PX) / line.offsetWidth;
  if (room < NARROWEST_NAME) spot.dataset.long = "true";
  else if (room < 1) line.style.transform = `scaleX(${room})`;
}

// It takes the drawing's place for a minute, and makes nothing else smaller.
function fitNews(box) {
  [1, ...WIDTHS].some((width) => {
    box.style.setProperty("--narrow", width);
    return box.scrollHeight <= box.clientHeight + SPARE_PX;
  });
}

function fitLine(line) {
  line.style.setProperty("--narrow", 1);
  const room = line.clientWidth / line.scrollWidth;
  if (room < 1) line.style.setProperty("--narrow", room);
}
