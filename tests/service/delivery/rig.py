"""The ways out of a shop, over a ledger that stands still; what stands in for the report."""

import json

from daq.service.delivery.config import OnSigning
from daq.service.delivery.deliveries import Deliveries
from tests.patience import until

LEDGER = "11111111-2222-4333-8444-555555555555"


def made(view, record, ending):
    """Stands in for the report: what it is of, and with how many rows."""
    return f"{ending} of {record.opened.short} to row {record.last.event.seq}".encode()


def settled(found):
    until(lambda: all(each.owed == 0 for each in found.ways.values()), lambda: found.ways)
    found.stop()


def following(data, tmp_path, *, at=0, **config):
    """The ways out of a shop that were opened when the ledger had `at` rows."""
    for way in ("folder", "address"):
        known = {"ledger": LEDGER, "seen": at, "rows": []}
        (data / f"owed-{way}.json").write_text(json.dumps(known), "utf-8")
    return Deliveries(OnSigning(**config), data, made)
