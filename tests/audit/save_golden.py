"""Make a release's golden ledger: python tests/audit/save_golden.py NAME.

Two whole audits at the pure bench, with a head off the gauge's scale, bolts pulled up one by
one, a knock, a zero, the unit key and a turned ring. Writes golden/NAME.jsonl (the export
with its evidence) and golden/NAME.state.json (the machine's last closed audit, as this
release folds it). Later releases must fold it to the same and decide the same again.
"""

import io
import json
import sys
import tempfile
from contextlib import closing
from pathlib import Path

from daq.audit.apply import fold
from daq.ledger import LedgerView
from daq.ledger.commands import export
from daq.ledger.store import Ledger
from daq.settings import plain
from daq.squaring.tightening import Tighten
from daq.words import Draft, Event
from tests.audit.conftest import Bench, setup_of
from tests.audit.nod_bolts import BOLTS
from tests.audit.rigid import Machinist, RigidHead, changed, mill
from tests.words import en

GOLDEN = Path(__file__).parent / "golden"
PAST = {"last_good": "2026-01-05", "disposition": "held and measured again"}


def audits() -> Bench:
    """Two audits on one machine, everything in them done by one machinist."""
    made = changed(setup_of(nod_pivot=150.0), nod={"tighten": Tighten(BOLTS, passes=1)})
    head = RigidHead(mill(wedge_mm=0.002), 0.4, -0.5)
    b = Bench(made)
    b.rows = 1  # the ledger's own first row
    m = Machinist(b, head, {"side": 0.004, "nod": 0.024}).start()
    b.take("front", 0.150)
    b.do("off-scale", {"position": "right"}, [0.0] * 10)
    m.work("final")
    m.step()
    b.do("zeroed", {}, [m.face("front")] * 6 + [0.0] * 6)
    m.plus_mm = -m.face("front")
    m.work("move")
    b.do("gauge-noted", {"code": "unit-changed"}, _in_inches(b, m.face(m.place)))
    m.work("check")
    head.shift(b.job.axis, 0.060)
    m.work("clear")
    b.do("cleared")
    b.do("sign", {"done_by": "technician 1", **PAST})
    _again(m, head)
    return b


def _in_inches(bench: Bench, value_mm: float) -> list[float]:
    bench.unit = "in"
    return [value_mm] * 10


def _again(m: Machinist, head: RigidHead) -> None:
    """A second audit: the head has moved a little, and the ring is turned half round."""
    b, m.plus_mm, b.unit = m.bench, 0.0, "mm"
    head.shift("nod", 0.05)
    m.start().work("clear")
    b.do("again", {"turned": "ring"})
    head.ring_deg += 180.0
    m.work("clear")
    b.do("cleared")
    b.do("sign", {"done_by": "technician 1", **PAST})


def _draft(event: Event) -> Draft:
    """The event before it got its place in the chain."""
    return Draft(
        type=event.type,
        v=event.v,
        machine=event.machine,
        audit=event.audit,
        stamp=event.stamp,
        actor=event.actor,
        cause=event.cause,
        data=event.data,
        evidence=event.evidence,
    )


def put(data: Path, made: Bench) -> None:
    """Write everything a bench recorded into a ledger of its own."""
    with closing(Ledger.open(data, stamp=made.events[0].stamp)) as ledger:
        for event in made.events:
            ledger.append([_draft(event)], [made.chunks[each] for each in event.evidence])


def save(name: str) -> None:
    """Write both files."""
    rows = io.StringIO()
    with tempfile.TemporaryDirectory() as folder:
        data = Path(folder)
        put(data, audits())
        export(data, rows, en, evidence=True)
        with LedgerView.open(data) as view:
            (state,) = fold(view.events()).machines.values()
    GOLDEN.mkdir(exist_ok=True)
    (GOLDEN / f"{name}.jsonl").write_text(rows.getvalue(), encoding="utf-8")
    text = json.dumps(plain(state.last), indent=1, sort_keys=True)
    (GOLDEN / f"{name}.state.json").write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    save(sys.argv[1])
