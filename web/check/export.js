// An export, line by line: rows {"body","hash","seq"}, then perhaps evidence. What is wrong is
// said as a code and what stands in its sentence, by the same codes as the command line's.

const SHAPES = new Set(["body,hash,seq", "bytes,digest", "digest,let_go"]);
const NUMBERS = new Set(["seq", "let_go"]);
const TEXTS = ["ledger", "type", "machine", "audit", "actor"];
const FIELDS = [...TEXTS, "seq", "v", "cause", "data", "stamp", "evidence"].sort().join();
const STAMP = "boot,mono_ns,utc_trusted,utc_us";
const UTF8 = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
const PUT = new TextEncoder();

const isHex = (text, digits) =>
  typeof text === "string" && text.length === digits && /^[0-9a-f]*$/.test(text);
const isTable = (value) => value !== null && typeof value === "object" && !Array.isArray(value);
const keysOf = (table) => Object.keys(table).sort().join();
const say = (code, given = {}) => ({ code, given });

function isBase64(text) {
  const bare = text.replace(/={1,2}$/, "");
  return text.length % 4 === 0 && !/[^A-Za-z0-9+/]/.test(bare);
}

function unpacked(text) {
  const raw = atob(text);
  const bytes = new Uint8Array(raw.length);
  for (let i = 0; i < raw.length; i += 1) bytes[i] = raw.charCodeAt(i);
  return bytes;
}

function parsed(text) {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** An export's line, null for what is none. */
function lineOf(raw) {
  let line = null;
  try {
    line = parsed(UTF8.decode(raw));
  } catch {
    return null;
  }
  if (!isTable(line) || !SHAPES.has(keysOf(line))) return null;
  for (const [key, value] of Object.entries(line)) {
    if (typeof value !== (NUMBERS.has(key) ? "number" : "string")) return null;
    if (key === "digest" && !isHex(value, 64)) return null;
    if (key === "bytes" && !isBase64(value)) return null;
    if (key === "body" && /\p{Surrogate}/u.test(value)) return null;
  }
  return line;
}

/** The event a body holds, null for none. */
function eventOf(body) {
  const event = parsed(body);
  if (!isTable(event) || keysOf(event) !== FIELDS) return null;
  const kinds =
    TEXTS.every((key) => typeof event[key] === "string") &&
    ["seq", "v"].every((key) => Number.isInteger(event[key])) &&
    ["cause", "data", "stamp"].every((key) => isTable(event[key])) &&
    Array.isArray(event.evidence);
  return kinds && keysOf(event.stamp) === STAMP ? event : null;
}

class Check {
  /** `anchors`: {ledger, row, head, source}, the ledger and the source "" where a person says so. */
  constructor(anchors = [], keys = []) {
    this.anchors = anchors;
    this.keys = keys;
    this.lines = 0;
    this.seq = 0;
    this.head = new Uint8Array(32);
    this.ledger = "";
    this.bad = null;
    this.over = false;
    this.none = false;
    this.named = new Map();
    this.found = new Set();
    this.damaged = new Set();
    this.gone = new Map();
    this.letGo = new Map();
    this.says = new Map();
    this.signed = new Map();
    this.by = new Map();
  }

  fail(row, what) {
    this.bad ??= { row, what };
  }

  line(raw) {
    this.lines += 1;
    const line = lineOf(raw);
    if (line === null && this.lines === 1) this.none = true;
    else if (line === null) {
      this.fail(this.over ? null : this.seq + 1, say("no-line-of-an-export", { line: this.lines }));
    } else if ("body" in line) this.row(line);
    else {
      this.over = true;
      this.evidence(line);
    }
  }

  evidence(line) {
    if ("let_go" in line) {
      if (!this.gone.has(line.digest)) this.gone.set(line.digest, line.let_go);
      if (!this.letGo.has(line.let_go)) this.letGo.set(line.let_go, []);
      this.letGo.get(line.let_go).push(line.digest);
    } else if (hexOf(new Sha256().update(unpacked(line.bytes)).digest()) === line.digest) {
      this.found.add(line.digest);
    } else this.damaged.add(line.digest);
  }

  row({ body, hash, seq }) {
    const event = eventOf(body);
    if (event?.type === "SamplesLetGo" && !this.says.has(seq)) this.says.set(seq, event.data);
    const want = this.seq + 1;
    if (this.over) this.fail(want, say("row-behind-evidence", { seq }));
    if (this.bad) return;
    const made = new Sha256().update(this.head).update(PUT.encode(body)).digest();
    if (seq > want) this.fail(want, say("row-is-missing", { seq: want }));
    else if (seq < want) this.fail(seq, say("row-was-slipped-in", { seq, want }));
    else if (hexOf(made) !== hash) this.fail(seq, say("row-is-altered", { seq }));
    else {
      const what = this.fault(event, seq, hash);
      if (what) this.fail(seq, what);
      else this.take(event, made);
    }
  }

  take(event, made) {
    this.seq += 1;
    this.head = made;
    this.ledger = event.ledger;
    for (const digest of event.evidence) {
      if (!this.named.has(digest)) this.named.set(digest, []);
      this.named.get(digest).push(this.seq);
    }
  }

  /** What is wrong with a row whose hash follows. */
  fault(event, seq, head) {
    if (event === null) return say("row-holds-no-event", { seq });
    if (event.seq !== seq) return say("row-out-of-place", { seq, was: event.seq });
    const { ledger } = event;
    if (this.ledger && this.ledger !== ledger) return say("row-of-another-ledger", { seq, ledger });
    const misnamed = event.evidence.find((each) => !isHex(each, 64));
    if (misnamed !== undefined) return say("row-misnames-evidence", { seq, found: String(misnamed) });
    for (const each of this.ours(ledger)) {
      if (each.row === seq && !head.startsWith(each.head)) {
        return fromFile(each, say("other-hash-noted", { seq, found: head, noted: each.head }));
      }
    }
    if (event.type === "Signed") this.signed.set(seq, head);
    return event.type === "AuditAttested" ? this.wronglySigned(event, seq) : null;
  }

  ours(ledger) {
    return this.anchors.filter((each) => !each.ledger || each.ledger === ledger);
  }

  wronglySigned({ data, ledger }, seq) {
    const { row, hash, key, signature } = data;
    const whole = isHex(key, 64) && isHex(signature, 128) && isHex(hash, 64);
    if (!Number.isInteger(row) || !whole) return say("attests-nothing", { seq });
    if (this.signed.get(row) !== hash) return say("attests-no-such-row", { seq, row });
    if (this.keys.length && !this.keys.includes(key)) {
      return say("attested-by-other", { seq, row, key: fingerprint(key) });
    }
    const text = PUT.encode(`headsweep-signed:${ledger}:${row}:${hash}`);
    if (!verified(bytesOf(key), bytesOf(signature), text)) {
      return say("attested-falsely", { seq, row });
    }
    this.by.set(row, key);
    return null;
  }

  /** The first row whose evidence is not what it names, and why; null if all is. */
  lacking() {
    let first = null;
    const note = (row, what) => {
      if (row !== null && (first === null || row < first.row)) first = { row, what };
    };
    for (const [digest, rows] of this.named) this.lacks(digest, rows, note);
    for (const [row, data] of this.says) {
      const listed = (this.letGo.get(row) ?? []).sort();
      const list = hexOf(new Sha256().update(bytesOf(listed.join(""))).digest());
      const other = data.count !== listed.length || data.digest !== list;
      if (row <= this.seq && other) note(row, say("let-go-otherwise", { seq: row, found: listed.length }));
    }
    return first;
  }

  lacks(digest, rows, note) {
    if (this.found.has(digest)) return;
    const at = this.gone.get(digest);
    if (at === undefined) {
      const code = this.damaged.has(digest) ? "evidence-is-damaged" : "evidence-not-there";
      note(rows[0], say("row-and-why", { seq: rows[0], why: say(code, { digest }) }));
      return;
    }
    const upTo = this.says.get(at)?.up_to;
    const last = Number.isInteger(upTo) ? upTo : 0;
    const wrong = rows.find((seq) => !(seq <= last && last < at));
    const why = say("evidence-let-go", { digest, row: at });
    if (wrong !== undefined) note(wrong, say("let-go-by-none", { seq: wrong, why }));
  }

  /** What was found. */
  end() {
    if (this.none) return { kind: "none", row: null };
    const later = this.ours(this.ledger).filter((each) => each.row > this.seq);
    if (!this.seq) this.fail(1, say("ledger-has-no-rows"));
    if (later.length) {
      const last = later.reduce((a, b) => (b.row > a.row ? b : a));
      const what = say("later-row-noted", { seq: this.seq, noted: last.row });
      this.fail(this.seq + 1, fromFile(last, what));
    }
    const lacking = this.over ? this.lacking() : null;
    if (lacking && (!this.bad || this.bad.row === null || lacking.row < this.bad.row)) {
      this.bad = lacking;
    }
    const unsigned = [...this.signed.keys()].filter((row) => !this.by.has(row));
    if (this.keys.length && unsigned.length) {
      const of = this.signed.size;
      this.fail(null, say("attested-by-none", { n: unsigned.length, of, row: unsigned[0] }));
    }
    const head = hexOf(this.head);
    if (this.bad) return { kind: "unsound", ...this.bad, rows: this.seq, head };
    return { kind: "sound", row: null, rows: this.seq, head };
  }
}

const fromFile = (anchor, what) =>
  anchor.source ? say("noted-in-file", { say: what, file: anchor.source }) : what;

function fingerprint(key) {
  const digits = hexOf(new Sha256().update(bytesOf(key)).digest()).slice(0, 16);
  return digits.match(/.{4}/g).join(" ");
}
