// Every card drawn by the pages' own scripts, from what the service sent.

import { drawActions } from "/static/js/actions.js";
import { drawAxes } from "/static/js/axes.js";
import { part } from "/static/js/dom.js";
import { drawPlace } from "/static/js/place.js";
import { LiveNumber } from "/static/js/live.js";
import { drawNumbers } from "/static/js/numbers.js";
import { drawStep } from "/static/js/step.js";
import { fitWall } from "/static/js/wall_fit.js";
import { drawWall } from "/static/js/wall_screen.js";

const cards = JSON.parse(document.getElementById("cards").textContent);

function draw(root, { snapshot, view, live, settling, cut, said, waiting, counting }) {
  if (waiting) return root.classList.contains("wall") && fitWall(root); // as it comes, before it is drawn
  const number = new LiveNumber(root);
  number.setAlive(true, "");
  if (live) number.update(live);
  number.show(snapshot, view);
  number.setSettling(settling);
  if (cut) number.setAlive(false, cut);
  if (root.classList.contains("wall")) {
    drawWall(root, snapshot, view, number, said);
    fitWall(root);
    return;
  }
  drawStep(root, snapshot, view, number, said);
  drawPlace(part("circle", root), view);
  drawAxes(part("axes", root), view.axes);
  const [primaryBox, otherBox, rareBox] = ["primary", "others", "rare"].map((name) => part(name, root));
  if (!primaryBox) return;
  drawActions({ primaryBox, otherBox, rareBox }, view.actions, () => {});
  drawNumbers(part("numbers", root), part("numbers-body", root), view.numbers);
  part("numbers", root).open = true;
  part("sent", root).textContent = said?.say ?? "";
  part("sent", root).dataset.kind = said?.outcome ?? "";
  part("counting", root).hidden = !counting;
  part("counting", root).dataset.word = String(Boolean(counting));
  part("count-say", root).textContent = counting ?? "";
}

const articles = document.querySelectorAll("article");
articles.forEach((root, at) => draw(root, cards[at]));
// Each window has room of its own.
addEventListener("resize", () => articles.forEach((root) => root.classList.contains("wall") && fitWall(root)));
document.body.dataset.drawn = String(articles.length);
