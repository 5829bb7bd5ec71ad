"""Two whole audits as a release wrote them: their events, and a ledger of them that was killed."""

import base64
import json
import shutil
from functools import cache
from itertools import groupby
from pathlib import Path

from daq.ledger import Ledger
from daq.ledger.aged import Batch
from daq.service.letting_go import drafted
from daq.settings import build
from daq.words import Draft, Event

GOLDEN = Path(__file__).parents[1] / "audit" / "golden"
ROWS = 40
"""So many of the rows a ledger to be damaged has: enough for every kind of page."""


@cache
def rows() -> tuple[list[Event], dict[str, bytes]]:
    """The events, the ledger's own first row among them, and the evidence by digest."""
    newest = max(GOLDEN.glob("*.jsonl"))
    lines = [json.loads(line) for line in newest.read_text(encoding="utf-8").splitlines()]
    bodies = [json.loads(line["body"]) for line in lines if "body" in line]
    events = [build(Event, body, "golden", quantities="plain") for body in bodies]
    chunks = {line["digest"]: base64.b64decode(line["bytes"]) for line in lines if "bytes" in line}
    return events, chunks


def commits() -> list[list[Event]]:
    """The events of the audits, those of one press together: no service stands between them."""
    grouped = groupby(rows()[0][1:], key=lambda event: event.cause["id"])
    return [list(events) for _, events in grouped]


def draft(event: Event) -> Draft:
    """The event before it got its place in the chain."""
    kept = {key: getattr(event, key) for key in Draft.__dataclass_fields__}
    return Draft(**kept)


def let_go(ledger: Ledger, event: Event) -> None:
    """What one row names is let go, as of a past in which this was old."""
    batch = Batch(event.evidence, event.seq)
    ledger.let_go(drafted(batch, 400, event.stamp, "golden"), event.evidence)


def lay_down(folder: Path) -> None:
    """A ledger of the first rows as it is when its writer is killed: the last are in the log."""
    events, chunks = rows()
    being = folder.with_name("being")
    with Ledger.open(being) as ledger:
        for event in events[1:ROWS]:
            ledger.append([draft(event)], [chunks[digest] for digest in event.evidence])
        let_go(ledger, next(event for event in events if event.evidence))
        shutil.copytree(being, folder)
    shutil.rmtree(being)
