// Whoever signs, adds or hands over proves by a PIN who they are: beside each person asked for stands the PIN's line.

import { rights } from "./post.js";
import { words } from "./words.js";

const PEOPLE = {
  done_by: words.pin_of,
  reviewed_by: words.pin_of_reviewer,
  left_by: words.pin_of_leaver,
  taken_by: words.pin_of_taker,
};
const PIN = "pin:";

// The fields of an action, its people chosen among those who have a PIN.
export function withPins(action) {
  if (!rights.signers || !action.fields?.some((field) => field.name in PEOPLE)) return action;
  return { ...action, fields: action.fields.flatMap((field) => (field.name in PEOPLE ? asked(field) : [field])) };
}

// Those who signed here lately come first.
function asked(field) {
  const late = (name) => (field.suggests.includes(name) ? field.suggests.indexOf(name) : field.suggests.length);
  const names = [...rights.signers].sort((one, other) => late(one) - late(other));
  const choices = names.map((name) => ({ key: name, say: name }));
  const value = field.required && choices.length === 1 ? choices[0].key : "";
  const pin = { name: PIN + field.name, say: PEOPLE[field.name], type: "pin", required: field.required };
  return choices.length ? [{ ...field, type: "choice", choices, value, suggests: [] }, pin] : [field, pin];
}

// What was filled in: the PINs go beside the payload, never into it.
export function parted(entered) {
  const fields = {};
  const pins = {};
  for (const [name, value] of Object.entries(entered)) {
    if (name.startsWith(PIN)) pins[name.slice(PIN.length)] = value;
    else fields[name] = value;
  }
  return { fields, pins };
}
