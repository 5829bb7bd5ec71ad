// After a run that was cut off: what happened and what is not fine, for as long as it is news.

import { el, part, rebuild, setData, setText, show } from "./dom.js";

// `said`: what is to be said now, null for nothing. The root knows, so that the page makes room.
export function drawCutOff(root, said) {
  const box = part("cut-off", root);
  show(box, said);
  setData(root, "cutOff", said ? (said.amiss.length ? "amiss" : "fine") : "none");
  if (!box || !said) return;
  setText(part("cut-off-say", box), said.say);
  rebuild(part("cut-off-amiss", box), said.amiss, (all) => all.map((each) =>
    el("li", {}, each.found, el("b", {}, each.todo))));
}
