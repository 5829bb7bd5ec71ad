"""Records of audits that were done at the pure bench, their rows chained as in a ledger."""

from copy import copy
from dataclasses import replace
from functools import cache

from daq.audit import evidence
from daq.audit.setup import AuditSetup
from daq.audit.shop_papers import ShopPapers, Tool
from daq.ledger.body import encode
from daq.ledger.chain import GENESIS_PREV, link
from daq.records.record import StoredRow, record
from daq.report.given import Given
from daq.report.made import made
from daq.says import language
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill

SHOP = ShopPapers(
    name="Two Rivers Practice Shop",
    address="1 Mill Lane\nPractice Town",
    method="WI-17",
    revision="rev C",
    time_zone="Europe/Berlin",
    customer="Own use",
)
TOOLS = (
    Tool("wrench", "W-3", say="Torque wrench 20 to 100 N m", certificate="C-881"),
    Tool("thermometer", "T-1", say="Shop thermometer", laboratory="Own measuring room"),
)
PAST = {"last_good": "2026-01-05", "disposition": "held and measured again"}


def papered(setup: AuditSetup, **machine) -> AuditSetup:
    """The same with everything that paper needs."""
    gauge = {
        "certificate": "C-1204",
        "laboratory": "Own measuring room",
        "calibrated_on": "2026-01-01",
    }
    of = {"asset": "A-0012", "place": "Bay 3", **machine}
    return replace(
        changed(setup, machine=of, gauge=gauge), shop=SHOP, tools=TOOLS, config="ab" * 32
    )


def at_bench(side_mm=0.02, nod_mm=-0.03, setup=None, reason="scheduled", until="sign") -> Machinist:
    """An audit of a head that leans so, worked as far as a step."""
    bench = Bench(setup or papered(setup_of(nod_pivot=150.0)))
    head = RigidHead(mill(), side_mm, nod_mm)
    worker = Machinist(bench, head, {"side": 0.002, "nod": 0.006}).start(reason)
    return worker.work("clear").work(until) if until == "sign" else worker.work(until)


def signed(worker: Machinist | None = None, **sheet) -> Bench:
    """The same signed, or the usual one, which is worked once and signed again and again."""
    bench = copied(_usual()) if worker is None else worker.bench
    bench.do("sign", {"done_by": "T", **PAST, **sheet})
    return bench


@cache
def _usual() -> Bench:
    return at_bench().bench


def copied(bench: Bench) -> Bench:
    """Another bench that has done the same so far."""
    made = copy(bench)
    made.events, made.chunks = list(bench.events), dict(bench.chunks)
    return made


def record_of(bench: Bench, audit: str = ""):
    """The latest audit of a bench, or that one, as it would be read from a ledger."""
    rows, before = [], GENESIS_PREV
    for event in bench.events:
        stored = link(before, encode(event, event.ledger, event.seq).encode())
        rows.append(StoredRow(event, stored.hex(), before.hex()))
        before = stored
    of = audit or bench.events[-1].audit
    return record([row for row in rows if row.event.audit == of])


def told_with(bench: Bench, names=None, version="9.9.0") -> Given:
    """What a bench's report is made with."""
    return Given(language(), names or {}, lambda each: evidence.decode(bench.chunks[each]), version)


def bytes_of(bench: Bench, ending: str, names=None, **more) -> bytes:
    """The report of a bench's latest audit."""
    return made(record_of(bench), ending, told_with(bench, names, **more))
