// What a verdict rests on, for whoever wants to know: the budget, the rule, the work, the head.

import { el, rebuild, show } from "./dom.js";

export function drawNumbers(box, body, numbers) {
  show(box, numbers);
  if (numbers) rebuild(body, numbers, contents);
}

function contents(numbers) {
  return [
    el("p", {}, `From sweep ${numbers.sweep}${numbers.age ? `, ${numbers.age}` : ""}.`),
    ...numbers.axes.flatMap(axis),
    ...list("Rule", [numbers.rule]),
    ...list("Condition", [numbers.condition || "None stated in the machine's file."]),
    ...list("What the lean does to the work", numbers.work.length ? numbers.work
      : ["The machine's file names no cutter and no work."]),
    ...list("What is known of this head", numbers.head),
  ];
}

function list(title, lines) {
  return [el("h3", {}, title), el("ul", {}, ...lines.map((line) => el("li", {}, line)))];
}

function axis(given) {
  const facts = [
    ["Error", given.error],
    ["Called", given.word],
    ["Standard uncertainty", given.u],
    ["Expanded uncertainty", given.expanded && `${given.expanded} (${given.coverage})`],
    ["Coverage factor k", given.k],
    ["Degrees of freedom", given.dof],
    ["Guard", given.guard],
    ["Guard rests on", given.guard_say],
    ["Probability of conformity", given.probability],
    ["Gauge", given.good_enough ? "" : "Not good enough for this tolerance."],
  ];
  return [el("h3", {}, given.say), factList(facts), ...(given.terms.length ? [budget(given)] : [])];
}

function factList(facts) {
  return el("dl", {}, ...facts.filter(([, value]) => value).map(([name, value]) =>
    el("div", {}, el("dt", {}, name), el("dd", {}, value))));
}

function budget(given) {
  const row = (term) => el("tr", { "data-cancels": term.value === "cancels" },
    el("th", { scope: "row" }, term.say, term.note ? el("span", { class: "why" }, term.note) : null),
    el("td", {}, term.value), el("td", {}, term.dof || (term.value === "cancels" ? "" : "many")));
  const heads = ["What may be off", "Standard uncertainty", "Degrees of freedom"];
  return el("table", {}, el("caption", {}, `Uncertainty budget: ${given.say}`),
    el("thead", {}, el("tr", {}, ...heads.map((head) => el("th", { scope: "col" }, head)))),
    el("tbody", {}, ...given.terms.map(row)));
}
