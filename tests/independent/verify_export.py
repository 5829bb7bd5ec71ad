"""A second verifier of an export: it shares no code with headsweep and needs Python alone.

    python verify_export.py EXPORT.jsonl [ROW:HASH ...] [PUBLIC-KEY ...]

An export holds a JSON object a line: rows {"seq", "hash", "body"}, then perhaps chunks of
evidence {"digest", "bytes"}; {"digest", "let_go"} if row "let_go" let it go: its data has their
count, the SHA-256 of their sorted digests, and "up_to" which row one may be named. A row's hash
is SHA-256 over the hash of the row before (32 zero bytes before the first) and the very text of
its body. ROW:HASH are hashes noted elsewhere: only they show that the end was cut off or all
written anew. A row AuditAttested holds an Ed25519 signature (RFC 8032) under the text
"headsweep-signed:LEDGER:ROW:HASH" of a row Signed; with PUBLIC-KEY each Signed row must have one
by such a key.
Exit codes: 0 sound, 2 no export, 3 not sound.
"""

import base64
import hashlib
import json
import re
import sys
from pathlib import Path

P, Q = 2**255 - 19, 2**252 + 27742317777372353535851937790883648493
D = -121665 * pow(121666, -1, P) % P
SHAPES = {("body", "hash", "seq"), ("bytes", "digest"), ("digest", "let_go")}
NUMBERS = {"seq", "let_go"}
EVENT = dict.fromkeys(("ledger", "type", "machine", "audit", "actor"), str)
EVENT |= {"seq": int, "v": int, "cause": dict, "data": dict, "stamp": dict, "evidence": list}
STAMP = {"mono_ns", "utc_us", "boot", "utc_trusted"}
BASE64 = "(?:[A-Za-z0-9+/]{4})*(?:[A-Za-z0-9+/]{2}==|[A-Za-z0-9+/]{3}=)?"
LONGEST = 1 << 26


def is_hex(text, digits):
    return isinstance(text, str) and bool(re.fullmatch(f"[0-9a-f]{{{digits}}}", text))


def plus(a, b):
    (x1, y1, z1, t1), (x2, y2, z2, t2) = a, b
    low, high = (y1 - x1) * (y2 - x2) % P, (y1 + x1) * (y2 + x2) % P
    c, d = 2 * t1 * t2 * D % P, 2 * z1 * z2 % P
    e, f, g, h = high - low, d - c, d + c, high + low
    return e * f % P, g * h % P, f * g % P, e * h % P


def times(n, point):
    made = (0, 1, 1, 0)
    while n:
        made, point, n = plus(made, point) if n & 1 else made, plus(point, point), n >> 1
    return made


def point(raw):
    """The point that 32 bytes stand for, None for none."""
    y = int.from_bytes(raw, "little")
    odd, y = y >> 255, y & (2**255 - 1)
    square = (y * y - 1) * pow(D * y * y + 1, -1, P) % P
    x = pow(square, (P + 3) // 8, P)
    x = x if (x * x - square) % P == 0 else x * pow(2, (P - 1) // 4, P) % P
    if y >= P or (x * x - square) % P or (x == 0 and odd):
        return None
    x = P - x if x & 1 != odd else x
    return x, y, 1, x * y % P


BASE = point((4 * pow(5, -1, P) % P).to_bytes(32, "little"))


def verified(key, signature, text):
    """Whether that key made the signature, by RFC 8032, 5.1.7."""
    a, r, s = point(key), point(signature[:32]), int.from_bytes(signature[32:], "little")
    if a is None or r is None or s >= Q:
        return False
    digest = hashlib.sha512(signature[:32] + key + text).digest()
    (x1, y1, z1, _), (x2, y2, z2, _) = (
        times(s, BASE),
        plus(r, times(int.from_bytes(digest, "little") % Q, a)),
    )
    return (x1 * z2 - x2 * z1) % P == 0 and (y1 * z2 - y2 * z1) % P == 0


class NoExport(Exception):
    """The file is something else."""


class Unsound(Exception):
    """The export is not as it was written, first in `row` (None: in none)."""

    def __init__(self, row, why):
        super().__init__(why)
        self.row = row


def parsed(text):
    def refuse(name):
        raise ValueError(name)

    try:
        return json.loads(text, parse_constant=refuse)
    except (ValueError, RecursionError):
        return None


def line_of(raw):
    """An export's line, None for what is none."""
    try:
        line = parsed(raw if isinstance(raw, str) else raw.decode("utf-8"))
    except ValueError:
        return None
    if not isinstance(line, dict) or tuple(sorted(line)) not in SHAPES:
        return None
    for key, value in line.items():
        good = type(value) in ((int, float) if key in NUMBERS else (str,))
        if not good or (key == "digest" and not is_hex(value, 64)):
            return None
        if key == "bytes" and not re.fullmatch(BASE64, value):
            return None
        if key == "body" and re.search("[\ud800-\udfff]", value):
            return None
    return line


def event_of(body):
    """The event a body holds, None for none."""
    event = parsed(body)
    kinds = {key: type(value) for key, value in event.items()} if isinstance(event, dict) else {}
    return event if kinds == EVENT and set(event["stamp"]) == STAMP else None


class Check:
    """Takes an export line by line."""

    def __init__(self, anchors=(), keys=()):
        self.anchors, self.keys = list(anchors), list(keys)
        self.lines, self.seq, self.head, self.ledger = 0, 0, bytes(32), ""
        self.bad, self.over = None, False
        self.named, self.found, self.gone = {}, set(), {}
        self.let_go, self.says = [], {}
        self.signed, self.by = {}, {}

    def fail(self, row, why):
        self.bad = self.bad or (row, why)

    def line(self, raw):
        self.lines += 1
        line = line_of(raw)
        if line is None and self.lines == 1:
            raise NoExport("its first line is none of an export")
        if line is None:
            row = None if self.over else self.seq + 1
            self.fail(row, f"line {self.lines} is none of an export")
        elif "body" in line:
            self.row(line)
        else:
            self.over = True
            self.evidence(line)

    def evidence(self, line):
        if "let_go" in line:
            self.gone.setdefault(line["digest"], line["let_go"])
            self.let_go.append((line["let_go"], line["digest"]))
        elif hashlib.sha256(base64.b64decode(line["bytes"])).hexdigest() == line["digest"]:
            self.found.add(line["digest"])

    def row(self, line):
        event, seq = event_of(line["body"]), line["seq"]
        if event and event["type"] == "SamplesLetGo":
            self.says.setdefault(seq, event["data"])
        if self.over:
            self.fail(self.seq + 1, f"row {seq} stands behind the evidence")
        if self.bad:
            return
        made = hashlib.sha256(self.head + line["body"].encode()).digest()
        if seq > self.seq + 1:
            self.fail(self.seq + 1, f"row {self.seq + 1} is missing")
        elif seq < self.seq + 1:
            self.fail(seq, f"row {seq} was slipped in before row {self.seq + 1}")
        elif made.hex() != line["hash"]:
            self.fail(seq, f"row {seq} is altered: its hash does not follow")
        else:
            why = self.fault(event, seq, made.hex())
            self.fail(seq, why) if why else self.take(event, seq, made)

    def take(self, event, seq, head):
        self.seq, self.head, self.ledger = self.seq + 1, head, event["ledger"]
        for digest in event["evidence"]:
            self.named.setdefault(digest, []).append(self.seq)

    def fault(self, event, seq, head):
        """What is wrong with a row whose hash follows."""
        if event is None:
            return f"row {seq} is altered: it holds no event"
        if event["seq"] != seq:
            return f"row {seq} is out of place: it was written as row {event['seq']}"
        if self.ledger not in ("", event["ledger"]):
            return f"row {seq} belongs to another ledger, {event['ledger']}"
        if not all(is_hex(each, 64) for each in event["evidence"]):
            return f"row {seq} misnames evidence"
        for row, noted in self.anchors:
            if row == seq and not head.startswith(noted):
                return f"row {seq} has hash {head}, but {noted} was noted down"
        if event["type"] == "Signed":
            self.signed[seq] = head
        return self.wrongly_signed(event, seq) if event["type"] == "AuditAttested" else None

    def wrongly_signed(self, event, seq):
        data = event["data"]
        row, key, sign = data.get("row"), data.get("key"), data.get("signature")
        whole = is_hex(key, 64) and is_hex(sign, 128) and is_hex(data.get("hash"), 64)
        if type(row) is not int or not whole:
            return f"row {seq} is a signature by a key, but does not say of what"
        if self.signed.get(row) != data["hash"]:
            return f"row {seq} signs row {row}, but no signed audit stands there with that hash"
        if self.keys and key not in self.keys:
            return f"row {seq}: row {row} is signed by another key, {key}"
        text = f"headsweep-signed:{event['ledger']}:{row}:{data['hash']}".encode()
        if not verified(bytes.fromhex(key), bytes.fromhex(sign), text):
            return f"row {seq} is no signature of its key under row {row}"
        self.by[row] = key
        return None

    def lacking(self):
        """The first row whose evidence is not what it names, and why; None if all is."""
        rows = {}
        for digest, named in self.named.items():
            row, why = self.lacks(digest, named)
            if row:
                rows.setdefault(row, why)
        for row, data in self.says.items():
            listed = sorted(bytes.fromhex(d) for at, d in self.let_go if at == row)
            found = len(listed), hashlib.sha256(b"".join(listed)).hexdigest()
            if row <= self.seq and found != (data.get("count"), data.get("digest")):
                rows.setdefault(row, f"row {row} let evidence go, but not what is listed")
        return min(rows.items(), default=None)

    def lacks(self, digest, named):
        if digest in self.found:
            return None, ""
        at = self.gone.get(digest)
        if at is None:
            return named[0], f"row {named[0]}: evidence {digest} is not here, or altered"
        up_to = self.says.get(at, {}).get("up_to")
        up_to = up_to if isinstance(up_to, int) else 0
        wrong = [seq for seq in named if not seq <= up_to < at]
        return next(iter(wrong), None), f"evidence {digest} was let go by no row"

    def all(self, lines):
        for each in lines:
            self.line(each)
        return self.end()

    def end(self):
        later = [row for row, _ in self.anchors if row > self.seq]
        if not self.seq:
            self.fail(1, "it has no rows")
        if later:
            self.fail(self.seq + 1, f"it ends at row {self.seq}, but row {max(later)} was noted")
        lacking = self.lacking() if self.over else None
        if lacking and (self.bad is None or self.bad[0] is None or lacking[0] < self.bad[0]):
            self.bad = lacking
        unsigned = [row for row in self.signed if row not in self.by]
        if self.keys and unsigned:
            self.fail(None, f"row {unsigned[0]} is signed by no key")
        if self.bad:
            raise Unsound(*self.bad)
        return self.seq, self.head.hex(), len(self.found)


def check(lines, anchors=(), keys=()):
    """Rows, head and chunks of an export's lines. Raises Unsound, NoExport."""
    return Check(anchors, keys).all(lines)


def main(path, *known):
    keys = [each for each in known if is_hex(each, 64)]
    noted = [each for each in known if re.fullmatch("[0-9]+:[0-9a-f]{8,64}", each)]
    try:
        if len(keys) + len(noted) < len(known):
            raise NoExport(f"found {known}; allowed: ROW:HASH, 8 to 64 digits, PUBLIC-KEY")
        anchors = [(int(row), head) for row, head in (each.split(":") for each in noted)]
        one = Check(anchors, keys)
        with Path(path).open("rb") as file:
            rows, head, chunks = one.all(iter(lambda: file.readline(LONGEST), b""))
    except Unsound as why:
        print(f"NOT SOUND: {why}" + (f"\nfirst bad row: {why.row}" if why.row is not None else ""))
        return 3
    except (OSError, NoExport) as why:
        print(f"{path}: this is no export: {why}", file=sys.stderr)
        return 2
    print(f"sound: {rows} rows, {chunks} chunks of evidence, none altered; head {head}")
    if one.named and not one.over:
        print(f"the evidence is not in this export: its rows name {len(one.named)} chunks")
    for key in sorted(set(one.by.values())):
        count = sum(each == key for each in one.by.values())
        print(f"{count} of {len(one.signed)} signed audits are signed by key {key}")
    return 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]) if len(sys.argv) > 1 else __doc__)
