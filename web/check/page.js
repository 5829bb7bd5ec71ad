// Files are read slice by slice, and the page has its turn in between: no worker is to be had from
// a page that was saved.

const SLICE = 1 << 20;
const LONGEST = 1 << 26;
const TURN_MS = 40;
const MOST_MARKS = 10000;
const TOKEN =
  /headsweep-anchor:([0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}):([1-9][0-9]{0,15}):([0-9a-f]{64})(?![0-9a-f])/g;
const LAST_ROW = /\}","hash":"([0-9a-f]{64})","seq":([1-9][0-9]{0,15})\}\s*$/;
const LEDGER = '\\"ledger\\":\\"';

const WORDS = JSON.parse(document.getElementById("words").textContent);
const part = (name) => document.querySelector(`[data-part="${name}"]`);

/** A sentence with what stands in it. */
function words(what) {
  const put = (value) => (typeof value === "object" ? words(value) : String(value));
  return WORDS[what.code].replace(/\{(\w+)\}/g, (_, name) => put(what.given[name]));
}

let turned = 0;

/** Lets the page have its turn, if it has waited long enough. */
async function turn() {
  if (performance.now() - turned < TURN_MS) return;
  await new Promise((go) => setTimeout(go));
  turned = performance.now();
}

/** A file's bytes, piece by piece. */
async function* slices(file) {
  for (let at = 0; at < file.size; at += SLICE) {
    yield new Uint8Array(await file.slice(at, at + SLICE).arrayBuffer());
    await turn();
  }
}

/** A file's lines, as bytes; one that goes on for ever comes in pieces. */
async function* linesOf(file) {
  let kept = [];
  let length = 0;
  for await (const bytes of slices(file)) {
    let from = 0;
    while (from < bytes.length) {
      const end = bytes.indexOf(10, from);
      const piece = bytes.subarray(from, end < 0 ? bytes.length : end + 1);
      from += piece.length;
      kept.push(piece);
      length += piece.length;
      if (end < 0 && length < LONGEST) continue;
      yield kept.length === 1 ? piece : joined(kept, length);
      [kept, length] = [[], 0];
    }
  }
  if (length) yield joined(kept, length);
}

function joined(pieces, length) {
  const all = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}

/** What a report or another export says of a row: {ledger, row, head, source}. */
async function marksOf(file) {
  const begins = await file.slice(0, 10).text();
  const found = begins === '{"body":"{' ? await lastRow(file) : await tokens(file);
  return found.map(([ledger, row, head]) => ({ ledger, row: Number(row), head, source: file.name }));
}

async function lastRow(file) {
  let last = [];
  for await (const line of linesOf(file)) {
    const text = new TextDecoder().decode(line);
    const end = LAST_ROW.exec(text.slice(-200));
    const at = text.lastIndexOf(LEDGER) + LEDGER.length;
    if (end) last = [[text.slice(at, at + 36), end[2], end[1]]];
  }
  return last;
}

async function tokens(file) {
  const found = new Map();
  let rest = "";
  const latin = new TextDecoder("latin1");
  const look = (text, sure) => {
    for (const [mark, ...token] of text.matchAll(TOKEN)) {
      if (text.indexOf(mark) < sure && found.size < MOST_MARKS) found.set(mark, token);
    }
  };
  for await (const bytes of slices(file)) {
    const text = rest + latin.decode(bytes);
    look(text, text.length - 160);
    rest = text.slice(-320);
  }
  look(rest, rest.length);
  return [...found.values()];
}

/** Check an export against anchors and keys; `told` is called with the share that was read. */
async function checkExport(file, anchors = [], keys = [], told = () => {}) {
  const check = new Check(anchors, keys);
  let read = 0;
  for await (const line of linesOf(file)) {
    check.line(line);
    read += line.length;
    told(read / file.size, check.seq);
    await turn();
    if (check.none) break;
  }
  return { ...check.end(), check };
}

/** The rows and hashes that somebody typed. */
function typed(text) {
  return text.split(/[\s,;]+/).filter(Boolean).map((each) => {
    const [, row, head] = /^([0-9]{1,15}):([0-9a-f]{8,64})$/i.exec(each) ?? [];
    if (!row) throw new Error(words(say("export-noted-wrong", { found: each })));
    return { ledger: "", row: Number(row), head: head.toLowerCase(), source: "" };
  });
}

function typedKey(text) {
  const key = text.replace(/\s+/g, "").toLowerCase();
  if (key && !isHex(key, 64)) throw new Error(words(say("export-key-wrong")));
  return key ? [key] : [];
}

/** What was found, as rows of a table: [name, value]. */
function facts({ check, kind, head }, marks, files) {
  const ours = marks.filter((each) => !each.ledger || each.ledger === check.ledger).length;
  const here = [...check.named.keys()].filter((each) => check.found.has(each)).length;
  const anchors = { ours, all: marks.length, files };
  const evidence = { here, named: check.named.size, gone: check.gone.size };
  const shown = [
    ["export-ledger", check.ledger],
    ["export-rows", check.seq],
    ["export-evidence", words(say(check.over ? "export-evidence-of" : "export-no-evidence", evidence))],
    ["export-anchors", words(say(ours ? "export-anchors-of" : "export-no-anchors", anchors))],
  ];
  if (kind !== "sound") shown.splice(2, 0, ["export-head", head]);
  const keys = new Map();
  for (const key of check.by.values()) keys.set(key, (keys.get(key) ?? 0) + 1);
  for (const [key, n] of keys) {
    const given = { n, of: check.signed.size, key: fingerprint(key) };
    shown.push(["export-signatures", words(say("attested-by", given))]);
  }
  return shown;
}

function show(heading, kind, sentence, rows = []) {
  part("verdict").textContent = heading;
  part("result").dataset.kind = kind;
  part("say").textContent = sentence;
  part("facts").replaceChildren(
    ...rows.flatMap(([name, value]) => {
      const [dt, dd] = [document.createElement("dt"), document.createElement("dd")];
      dt.textContent = WORDS[name];
      dd.textContent = value;
      return [dt, dd];
    }),
  );
  part("result").hidden = false;
  part("verdict").focus();
}

async function run() {
  const [file] = part("export").files;
  if (!file) throw new Error(WORDS["export-none-chosen"]);
  const [noted, keys] = [typed(part("noted").value), typedKey(part("key").value)];
  const papers = [...part("papers").files];
  const marks = [...noted];
  for (const paper of papers) marks.push(...(await marksOf(paper)));
  const told = (share, row) => {
    part("bar").value = share;
    part("read").textContent = words(say("export-reading", { share: Math.floor(100 * share), row }));
  };
  const found = await checkExport(file, marks, keys, told);
  if (found.kind === "none") {
    show(WORDS["export-no-export"], "none", words(say("export-no-export-say", { file: file.name })));
    return;
  }
  const sound = found.kind === "sound";
  const good = say("none-altered", { rows: found.rows, head: found.head });
  const rows = facts(found, marks, papers.length);
  if (found.row !== null) rows.unshift(["export-first-bad", found.row]);
  const heading = sound ? "export-sound" : "export-not-sound";
  show(WORDS[heading], found.kind, words(sound ? good : found.what), rows);
}

async function start(event) {
  event.preventDefault();
  part("result").hidden = true;
  part("progress").hidden = false;
  part("start").disabled = true;
  try {
    await run();
  } catch (error) {
    show(WORDS["export-not-done"], "none", error.message);
  }
  part("start").disabled = false;
  part("progress").hidden = true;
}

/** What is dropped on a field is as if chosen there. */
function taking(field) {
  const input = field.querySelector("input");
  field.addEventListener("dragover", (event) => event.preventDefault());
  field.addEventListener("drop", (event) => {
    event.preventDefault();
    input.files = event.dataTransfer.files;
  });
}

part("form").addEventListener("submit", start);
for (const field of document.querySelectorAll("[data-drop]")) taking(field);
