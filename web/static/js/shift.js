// While bolts are pulled up: what it does to the number, against what one bolt may do.

import { part, setData, setText, show } from "./dom.js";
import { tellWidth } from "./fit.js";

export function drawShift(root, bolts, number) {
  const box = part("shift", root);
  show(box, bolts);
  if (!bolts) return;
  const shift = moved(bolts, number?.to_go);
  setData(box, "state", shift.state);
  setText(part("shift-now", root), shift.now);
  setText(part("shift-all", root), shift.all);
  for (const line of ["shift-line", "shift-all"]) tellWidth(box, `--${line}`, part(line, root));
}

// The distance to go counts from before the first bolt, and against the movement.
function moved({ bolt, step, of, limit, since }, toGo) {
  const turn = bolt ? `Step ${step} of ${of}` : "";
  if (!toGo) return { state: "unknown", now: "movement unknown", all: turn };
  const decimals = (toGo.split(".")[1] ?? "").length;
  const all = -Number(toGo);
  const own = all - (bolt ? Number(since) : 0);
  const now = signed(own, decimals);
  if (!bolt) return { state: "within", now: `Moved ${now} since the bolts were loose`, all: "" };
  const over = Math.abs(own) > Number(limit) + 10 ** -decimals / 2;
  const sum = step > 1 ? `, ${signed(all, decimals)} in all` : "";
  return { state: over ? "over" : "within", now: `Moved ${now}, allowed ${limit}`, all: turn + sum };
}

function signed(value, decimals) {
  const text = Math.abs(value).toFixed(decimals);
  if (Number(text) === 0) return text;
  return `${value < 0 ? "-" : "+"}${text}`;
}
