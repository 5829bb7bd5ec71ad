"""Audits of long ago in a ledger, by dates of the test's choice; what is old among them let go."""

from daq.ledger import Ledger, digest_of
from daq.ledger.aged import Rules, batches
from daq.ledger.errors import LetGo
from daq.service.letting_go import (
    CLOSING,
    DAY_US,
    drafted,
)
from daq.service.proof import Known
from daq.words import Stamp
from tests.ledger.conftest import make_draft

NOW_US = 1_900_000_000_000_000
DAYS = 100
KNOWN = Known()


class Clock:
    def __init__(self, trusted=True):
        self.ns, self.trusted = 5_000_000_000, trusted

    def mono_ns(self):
        return self.ns

    def stamp(self):
        return Stamp(self.ns, NOW_US + self.ns // 1000, "boot", self.trusted)


def at(days, trusted=True):
    return Stamp(1, NOW_US - days * DAY_US, "boot", trusted)


class Past:
    """Rows of audits, each reading with a piece of evidence of its own."""

    def __init__(self, folder):
        self.ledger = Ledger.open(folder, stamp=at(21_000))
        self.n = 0

    def close(self):
        """Once is enough."""
        ledger, self.ledger = self.ledger, None
        if ledger is not None:
            ledger.close()

    def row(self, kind, audit, days, trusted=True):
        self.n += 1
        chunk = (
            f"{self.n} {audit}".encode() * 500
            if kind in ("ReadingTaken", "Checked", "Kept")
            else b""
        )
        named = {"evidence": (digest_of(chunk),)} if chunk else {}
        stamp, machine = at(days, trusted), "mill" if audit else ""
        draft = make_draft(self.n, type=kind, audit=audit, machine=machine, stamp=stamp, **named)
        return self.ledger.append([draft], [chunk] if chunk else [])[0]

    def audit(self, audit, days, closed="Signed", readings=3, trusted=True):
        for _ in range(readings):
            self.row("ReadingTaken", audit, days, trusted)
        return self.row(closed, audit, days, trusted) if closed else None


def rules(days=DAYS, **more):
    return Rules(NOW_US - days * DAY_US, CLOSING, **more)


def let_go(ledger, **more):
    """All that may go is let go; the rows that say so."""
    return [
        ledger.let_go(drafted(batch, DAYS, at(0), "test"), batch.digests)
        for batch in batches(ledger, rules(**more))
    ]


def kept(ledger):
    """The audits whose samples are all there, and those whose samples are gone."""
    there, gone = set(), set()
    for event in ledger.events():
        for each in event.evidence:
            try:
                ledger.chunk(each)
                there.add(event.audit)
            except LetGo:
                gone.add(event.audit)
    assert not there & gone
    return there, gone
