// Hands a command in. A command lost on the way is sent again under the same
// id, so that it is carried out once, however often it arrives.

import { post } from "./post.js";
import { filled, words } from "./words.js";

const GIVE_UP_MS = 30000;
const PAUSE_MS = [500, 1000, 2000];

export function newId() {
  if (crypto.randomUUID) return crypto.randomUUID();
  // Plain http from another device is no secure context: build the same by hand.
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

export function command(snapshot, action, fields, actor = "console", pins = {}) {
  return {
    id: newId(),
    kind: action.kind,
    payload: { ...action.payload, ...fields },
    pins,
    actor,
    audit: snapshot.pages.console.audit,
    expects_seq: snapshot.seq,
  };
}

// Resolves to { outcome: "ok" | "stale" | "refused" | "unreached", say }.
export async function send(machine, body, onWait) {
  const until = performance.now() + GIVE_UP_MS;
  for (let attempt = 0; ; attempt += 1) {
    const answer = await sent(machine, body);
    if (answer) return answer;
    const pause = PAUSE_MS[Math.min(attempt, PAUSE_MS.length - 1)];
    if (performance.now() + pause > until) {
      return { outcome: "unreached", say: words.unreached };
    }
    onWait(words.sending_again);
    await new Promise((resolve) => setTimeout(resolve, pause));
  }
}

async function sent(machine, body) {
  let response;
  let answer;
  try {
    response = await post(`/api/machines/${encodeURIComponent(machine)}/commands`, body, 20000);
    answer = await response.json();
  } catch {
    return null; // lost on the way, or a proxy's page in place of our answer
  }
  if (response.ok) return { outcome: "ok", say: "" };
  if (response.status === 409) {
    const what = answer.changed?.length ? answer.changed.join("; ") : answer.reason;
    return { outcome: "stale", say: filled(words.came_between, { what: what || words.step_changed }) };
  }
  return { outcome: "refused", say: [answer.reason, ...(answer.problems ?? [])].filter(Boolean).join(" ") || words.refused };
}
