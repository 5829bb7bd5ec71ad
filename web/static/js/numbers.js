// What a verdict rests on, for whoever wants to know: the budget, the rule, the work, the head.

import { el, rebuild, show } from "./dom.js";
import { filled, words } from "./words.js";

const named = words.numbers;

export function drawNumbers(box, body, numbers) {
  show(box, numbers);
  if (numbers) rebuild(body, numbers, contents);
}

function contents(numbers) {
  return [
    el("p", {}, numbers.say),
    ...numbers.axes.flatMap(axis),
    ...list(named.rule, [numbers.rule]),
    ...list(named.condition, [numbers.condition]),
    ...list(named.decides, numbers.decides),
    ...list(named.work, numbers.work),
    ...list(named.head, numbers.head),
  ];
}

function list(title, lines) {
  return !lines.length ? [] : [el("h3", {}, title), el("ul", {}, ...lines.map((line) => el("li", {}, line)))];
}

function axis(given) {
  const shown = {
    ...given,
    expanded: given.expanded && `${given.expanded} (${given.coverage})`,
    gauge: given.good_enough ? "" : named.not_good_enough,
  };
  const facts = Object.entries(named.facts).map(([key, say]) => [say, shown[key]]);
  return [el("h3", {}, given.say), factList(facts), ...(given.terms.length ? [budget(given)] : [])];
}

function factList(facts) {
  return el("dl", {}, ...facts.filter(([, value]) => value).map(([name, value]) =>
    el("div", {}, el("dt", {}, name), el("dd", {}, value))));
}

function budget(given) {
  const row = (term) => el("tr", { "data-cancels": String(term.cancels) },
    el("th", { scope: "row" }, term.say, term.note ? el("span", { class: "why" }, term.note) : null),
    el("td", {}, term.value), el("td", {}, term.dof || (term.cancels ? "" : named.many)));
  return el("table", {}, el("caption", {}, filled(named.budget, { axis: given.say })),
    el("thead", {}, el("tr", {}, ...named.columns.map((head) => el("th", { scope: "col" }, head)))),
    el("tbody", {}, ...given.terms.map(row)));
}
