"""Years of audits made from one: its rows put through the real store again, with new names."""

import hashlib
import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import asdict, replace

from daq.ledger import Ledger
from daq.words import Draft, Event, Stamp

WEEK_US = 7 * 24 * 3600 * 1_000_000
AT_ONCE = 20
"""So many audits are committed with one flush."""


class Past:
    """One audit's events and evidence, to be had again under other names, a week later each."""

    def __init__(self, events: Iterable[Event], chunks: Mapping[str, bytes]) -> None:
        """`chunks`: the evidence the events name, by its digest."""
        self.events = tuple(events)
        self._chunks = {d: chunks[d] for event in self.events for d in event.evidence}
        self._runs = sorted({line["run"] for c in self._chunks.values() for line in _heads(c)})
        names = {event.audit for event in self.events} | {e.cause["id"] for e in self.events}
        self._names = sorted(names)
        known = "|".join(re.escape(json.dumps(each)) for each in (*self._runs, *names, *chunks))
        text = json.dumps([asdict(event) for event in self.events])
        self._parts = re.split(f"({known})", text)

    def again(self, n: int, previous: int | None = None) -> tuple[list[Draft], list[bytes]]:
        """The n-th copy: drafts, and the evidence they name.

        `previous`: the row of the signature before it. How the head was found and left differs
        a little from copy to copy.
        """
        new = {old: f"{n:08x}{old[8:]}" for old in self._names}
        new |= {old: f"{old}-{n}" for old in self._runs}
        chunks = []
        for digest, chunk in self._chunks.items():
            text = chunk.decode()
            for run in self._runs:
                text = text.replace(json.dumps(run), json.dumps(new[run]))
            chunks.append(text.encode())
            new[digest] = hashlib.sha256(chunks[-1]).hexdigest()
        quoted = {json.dumps(old): json.dumps(name) for old, name in new.items()}
        rows = json.loads("".join(quoted.get(part, part) for part in self._parts))
        return [self._draft(row, n, previous) for row in rows], chunks

    @staticmethod
    def _draft(row: dict, n: int, previous: int | None) -> Draft:
        if row["type"] == "AuditOpened":
            row["data"]["setup"]["previous"] = previous
        if row["type"] == "Signed":
            for result in (*row["data"]["as_found"].values(), *row["data"]["as_left"].values()):
                result["error_mm"] += 1e-4 * (7919 * n % 13 - 6)
        stamp = Stamp(**row.pop("stamp"))
        evidence = tuple(row.pop("evidence"))
        del row["ledger"], row["seq"]
        later = replace(stamp, utc_us=stamp.utc_us + n * WEEK_US)
        return Draft(**row, stamp=later, evidence=evidence)

    def put(self, ledger: Ledger, numbers: Iterable[int]) -> None:
        """Append these copies."""
        drafts: list[Draft] = []
        chunks: list[bytes] = []
        last = ledger.event(ledger.seq)
        previous = ledger.seq if last is not None and last.type == "Signed" else None
        for n in numbers:
            more, evidence = self.again(n, previous)
            previous = ledger.seq + len(drafts) + len(more)
            drafts += more
            chunks += evidence
            if len(drafts) >= AT_ONCE * len(self.events):
                ledger.append(drafts, chunks)
                drafts, chunks = [], []
        ledger.append(drafts, chunks)


def _heads(chunk: bytes) -> Iterable[dict]:
    lines = map(json.loads, chunk.decode().split("\n")[:-1])
    return (line for line in lines if isinstance(line, dict))
