// Buttons made from the snapshot's `actions`.

import { el, rebuild } from "./dom.js";

export function primaryOf(actions) {
  return actions.find((action) => action.primary) ?? null;
}

export function undoOf(actions) {
  return actions.find((action) => action.kind === "undo") ?? null;
}

// The primary action and undo stay in reach at the bottom, the others follow the
// text, and what ends an audit or hands it over comes last of all. Reasons to open one are chosen
// among, so they stand together, under what is chosen there. Focus never falls off a button.
export function drawActions({ primaryBox, otherBox, rareBox }, actions, press) {
  const near = actions.filter((action) => (action.primary && action.kind !== "open") || action.kind === "undo");
  const rare = actions.filter((action) => ["hand-over", "put-aside", "abandon"].includes(action.kind));
  const others = actions.filter((action) => !near.includes(action) && !rare.includes(action));
  const focused = [primaryBox, otherBox, rareBox].some((box) => box.contains(document.activeElement));
  for (const [box, list] of [[primaryBox, near], [otherBox, others], [rareBox, rare]]) {
    rebuild(box, list, (all) => all.flatMap((action, at) => [
      ...(action.under && action.under !== all[at - 1]?.under ? [el("h2", { class: "under" }, action.under)] : []),
      button(action, press),
    ]));
  }
  if (focused && !document.activeElement?.closest?.("[data-action]")) {
    const next = [primaryBox, otherBox].map((box) => box.querySelector(".primary")).find(Boolean)
      ?? otherBox.querySelector("button");
    next?.focus();
  }
}

function button(action, press) {
  const node = el("button", {
    type: "button",
    class: action.primary ? "primary" : action.kind === "undo" ? "undo" : "other",
    "data-action": action.kind,
    "aria-keyshortcuts": action.key || null,
  }, el("span", {}, action.say), action.key ? el("kbd", { "aria-hidden": "true" }, action.key.toUpperCase()) : null);
  node.addEventListener("click", (event) => {
    // A finger leaves no focus behind: the next press of a pedal must not land here again.
    if (event.detail > 0) node.blur();
    press(action);
  });
  return node;
}
