// What a box asks, each as it is filled in: picked, ticked, or typed on keys of the screen's own.

import { el } from "./dom.js";
import { words } from "./words.js";

const DAY = /^\d{4}-\d{2}-\d{2}$/;
const KEYED = ["date", "pin"]; // filled in by the pad of digits

export function input(field) {
  if (field.type === "choice") return choices(field);
  if (field.type === "tick") {
    return el("label", { class: "tick" }, el("input", { type: "checkbox", name: field.name }), el("span", {}, field.say));
  }
  if (!field.suggests?.length) {
    return el("label", { class: "field", "data-instead": Boolean(field.instead_of) },
      el("span", {}, field.say + need(field)), ...notes(field), line(field));
  }
  const typed = line(field);
  return el("fieldset", { class: "field" }, el("legend", {}, field.say + need(field)), ...notes(field),
    picks(field, typed), el("label", { class: "own" }, el("span", {}, words.or_type), typed));
}

// What is wrong with what was filled in, before it is sent; nothing where it may be right.
export function problem(field, value) {
  return field.type === "date" && value !== "" && !DAY.test(value) ? `${field.say}: ${words.day_like}` : "";
}

// A day as its digits come one by one.
export function dashed(text) {
  const digits = text.replace(/\D/g, "").slice(0, 8);
  return [digits.slice(0, 4), digits.slice(4, 6), digits.slice(6)].filter(Boolean).join("-");
}

function need(field) {
  return field.required || field.value || field.instead_of ? "" : ` ${words.may_stay_empty}`;
}

function notes(field) {
  const said = [field.note, field.type === "date" ? words.day_like : ""].filter(Boolean);
  return said.map((each) => el("span", { class: "note" }, each));
}

function choices(field) {
  return el("fieldset", { class: "field" }, el("legend", {}, field.say + need(field)),
    ...field.choices.map((choice) => el("label", { class: "tick" },
      el("input", { type: "radio", name: field.name, value: choice.key, checked: choice.key === field.value }), choice.say)));
}

function line(field) {
  return el("input", {
    type: field.type === "pin" ? "password" : "text",
    name: field.name,
    value: field.value || null,
    autocomplete: "off",
    inputmode: KEYED.includes(field.type) ? "none" : null,
    "data-pad": KEYED.includes(field.type) ? field.type : null,
    maxlength: field.type === "pin" ? null : 2000,
    "aria-required": field.required ? "true" : "false",
  });
}

// A press fills it in, a second one takes that back; what is typed is none of them.
function picks(field, typed) {
  const all = field.suggests.map((say) => el("button", { type: "button", class: "pick" }, say));
  const mark = () => all.forEach((each) => each.setAttribute("aria-pressed", String(each.textContent === typed.value)));
  for (const each of all) {
    each.addEventListener("click", () => {
      typed.value = typed.value === each.textContent ? "" : each.textContent;
      mark();
    });
  }
  typed.addEventListener("input", mark);
  mark();
  return el("div", { class: "picks" }, ...all);
}
