// On the Pi's own wall in an empty shop: the machine's page, once there is a machine.

const EVERY_MS = 2000;

async function look() {
  try {
    const answer = await fetch("/api/machines", { signal: AbortSignal.timeout(EVERY_MS) });
    const [first] = answer.ok ? await answer.json() : [];
    if (first) return location.assign(`/machines/${encodeURIComponent(first.key)}/wall`);
  } catch {
    // It is being started anew.
  }
  setTimeout(look, EVERY_MS);
}

look();
