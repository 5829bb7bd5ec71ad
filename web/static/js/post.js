// What this screen may do, as its page was told, and how it sends: with the token that no other
// site's page knows.

export const rights = JSON.parse(document.querySelector("meta[name=rights]")?.content ?? "{}");

export function post(path, body, within) {
  const headers = { "Content-Type": "application/json" };
  if (rights.token) headers["X-Page-Token"] = rights.token;
  return fetch(path, { method: "POST", headers, body: JSON.stringify(body), signal: AbortSignal.timeout(within) });
}
