"""A second verifier of an export: it shares no code with headsweep and needs Python alone.

    python verify_export.py EXPORT.jsonl [ROW:HASH ...]

An export holds a JSON object a line: rows {"seq", "hash", "body"}, then perhaps chunks of
evidence {"digest", "bytes"}; {"digest", "let_go"} if row "let_go" let it go: its data has their
count, the SHA-256 of their sorted digests, and "up_to" which row one may be named. A row's hash
is SHA-256 over the hash of the row before (32 zero bytes before the first) and the very text of
its body. ROW:HASH are hashes noted elsewhere: only they show that the end was cut off or all
written anew.
Exit codes: 0 sound, 2 no export, 3 not sound.
"""

import base64
import hashlib
import json
import re
import sys
from pathlib import Path

digest = hashlib.sha256


class Unsound(Exception):
    """The export is not as it was written."""


def check_row(line, seq, head, ledger):
    """The new head, the ledger's id and the event of row `seq`."""
    body = line["body"]
    if line["seq"] != seq:
        raise Unsound(f"row {seq} is missing: found row {line['seq']}")
    made = digest(head + body.encode()).digest()
    if made.hex() != line["hash"]:
        raise Unsound(f"row {seq} is altered: its hash does not follow")
    event = json.loads(body)
    if event["seq"] != seq:
        raise Unsound(f"row {seq} was written as row {event['seq']}")
    if ledger not in ("", event["ledger"]):
        raise Unsound(f"row {seq} belongs to another ledger, {event['ledger']}")
    return made, event["ledger"], event


def check_let_go(seq, data, gone, named):
    """Whether row `seq` says that the digests `gone`, and no other, were let go."""
    last = max((named.get(each.hex(), 0) for each in gone), default=0)
    found = len(gone), digest(b"".join(sorted(gone))).hexdigest()
    if found != (data.get("count"), data.get("digest")) or not last <= data["up_to"] < seq:
        raise Unsound(f"row {seq} let evidence go, but not what is listed, or too much of it")


def check(lines, anchors):
    """Rows, head and chunks of an export. Raises Unsound."""
    seq, head, ledger, named, found, said, listed = 0, bytes(32), "", {}, set(), {}, {}
    for line in map(json.loads, lines):
        if "digest" in line:
            chunk = base64.b64decode(line.get("bytes", ""), validate=True)
            if "bytes" not in line:
                listed.setdefault(line["let_go"], []).append(bytes.fromhex(line["digest"]))
            elif digest(chunk).hexdigest() != line["digest"]:
                raise Unsound(f"evidence {line['digest']} is altered")
            found.add(line["digest"])
            continue
        if found:
            raise Unsound(f"row {line['seq']} stands behind the evidence")
        seq += 1
        head, ledger, event = check_row(line, seq, head, ledger)
        named |= dict.fromkeys(event["evidence"], seq)
        said |= {seq: event["data"]} if event["type"] == "SamplesLetGo" else {}
        noted = anchors.pop(seq, "")
        if not head.hex().startswith(noted):
            raise Unsound(f"row {seq} has hash {head.hex()}, but {noted} was noted down")
    if anchors or not seq:
        raise Unsound(f"it ends at row {seq}: row {min(anchors, default=1)} is missing")
    if found and found != set(named):
        raise Unsound(f"evidence is missing, or named by no row: {sorted(found ^ set(named))}")
    for row in said | listed if found else ():
        check_let_go(row, said.get(row, {}), listed.get(row, []), named)
    return seq, head.hex(), len(found)


def main(path, *noted):
    try:
        if not all(re.fullmatch("[0-9]+:[0-9a-f]{8,64}", each) for each in noted):
            raise ValueError(f"found {noted}; allowed: ROW:HASH, 8 to 64 digits of the hash")
        anchors = {int(row): head for row, head in (each.split(":") for each in noted)}
        with Path(path).open(encoding="utf-8", newline="\n") as lines:
            rows, head, chunks = check(lines, anchors)
    except Unsound as why:
        print(f"NOT SOUND: {why}")
        return 3
    except (OSError, ValueError, KeyError, TypeError) as why:
        print(f"{path}: this is no export: {why}", file=sys.stderr)
        return 2
    print(f"sound: {rows} rows, {chunks} chunks of evidence, none altered; head {head}")
    return 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]) if len(sys.argv) > 1 else __doc__)
