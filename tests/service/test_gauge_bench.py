"""A gauge checked at a page while the service runs: as at the terminal, over its own reader."""

import dataclasses
import io
import re
import sys

import pytest

from daq.app import service
from daq.audit.codec import decode
from daq.ledger import LedgerView
from daq.ledger.verify import verify
from daq.service import bench_page
from daq.service.clock import SystemClock
from daq.service.files import load
from daq.service.gauge_bench import CheckAsked, GaugeBench
from daq.words import Asker, Command, Proved, SaidTrouble
from tests.patience import until
from tests.service.test_bench_blocks import FACTS, Technician, check, recorded
from tests.system.shop import MACHINE, Shop
from tests.system.ttygauge import TtyGauge
from tests.words import en, troubled

KIT = Proved("5f0c3a52-8f7e-4d6c-9f53-2f1f6f0a7c11", "Kit Marsh")
ASKER = Asker(role="work", screen="Phone")
ASKED = CheckAsked("practice", "example-set", "found", "22 °C", "2 h", lengths="0 mm, 1 mm")
BLOCK = re.compile(r"the (?:(\S+) mm blocks?|surface)")


@pytest.fixture
def running(shop, gauge):
    files = load(shop.config)
    with service(files, shop.data) as found:
        yield found


@pytest.fixture
def bench(shop, running):
    readers = running.setup.readers
    until(lambda: readers["practice"].status.code == "ok")
    state = lambda: running.setup.shop  # noqa: E731
    return GaugeBench(shop.config, running.files, readers, state, running.inbox, SystemClock())


def asked(bench):
    """The next question, once there is one, or how it ended."""
    until(lambda: bench.view().talk.state != "reads", lambda: bench.view().talk)
    return bench.view().talk


def led(bench, gauge, does=None, off=0.0):
    """Put every block under the contact that is asked for, and press; `does`: else, by how-manieth.

    Returns the view as it asks for something else, or is over.
    """
    n = 0
    while BLOCK.search(en((now := asked(bench)).ask) or ""):
        n += 1
        length = float(BLOCK.search(en(now.ask))[1] or 0.0)
        typed = (does or {}).get(n, "")
        if not typed:
            gauge.move_to(round(0.25 + length + (off if length else 0.0), 3))
        bench.answer(now.number, typed)
    return now


def test_it_makes_the_row_that_the_terminal_makes(shop, gauge, bench, tmp_path, monkeypatch):
    bench.begin(ASKED, KIT, ASKER)
    begun = bench.view()
    assert ([g.key for g in begun.gauges], begun.sets) == (["practice"], ("example-set",))
    with troubled(SaidTrouble, match="A gauge is being checked already"):
        bench.begin(ASKED, KIT, ASKER)
    done = led(bench, gauge, does={2: "b", 4: "b"}, off=0.001)
    assert (done.person, done.unit, len(done.lines)) == ("Kit Marsh", "mm", 6)
    assert "Good: its errors span" in en(done.told[-1])
    assert done.face == "+000.250 mm"
    for number, typed in ((done.number - 1, ""), (done.number, "k")):
        with troubled(SaidTrouble, match="Something else is asked by now"):
            bench.answer(number, typed)
    bench.answer(done.number, "")
    over = asked(bench)
    assert (over.state, en(over.told[-1])) == ("over", f"Recorded as row {over.row}.")
    with LedgerView.open(shop.data) as view:
        (event,) = [e for e in view.events() if e.type == "GaugeChecked"]
        assert view.people()[KIT.id] == "Kit Marsh"
    assert (event.seq, event.actor, event.cause["asker"]["screen"]) == (over.row, KIT.id, "Phone")
    assert verify(shop.data).ok
    page, terminal = decode(event), at_a_terminal(Shop(tmp_path / "other"), monkeypatch)
    assert (page.points, page.span_mm, page.said) == (
        terminal.points,
        terminal.span_mm,
        terminal.said,
    )
    assert page.work == dataclasses.replace(terminal.work, taken_back=2)


def at_a_terminal(shop, monkeypatch):
    """The same check there."""
    out = io.StringIO()
    with TtyGauge(shop.tty) as gauge:
        monkeypatch.setattr(sys, "stdin", Technician(gauge, out, off={1.0: 0.001}))
        monkeypatch.setattr(sys, "stdout", out)
        assert check(shop, "--lengths", "0 mm, 1 mm", *FACTS, "--yes") == 0
    (found,) = recorded(shop)
    return found


def test_an_audit_that_has_the_gauge_goes_before_it(running, bench, gauge):
    bench.begin(ASKED, KIT, ASKER)
    first = asked(bench)
    opened = running.inbox.submit(Command("a" * 8, MACHINE, "open", {"reason": "scheduled"}))
    assert opened.accepted, opened
    until(lambda: bench.view().gauges[0].why)
    bench.answer(first.number, "")
    over = asked(bench)
    why = f"An audit on {MACHINE} has that gauge: finish it first."
    assert (over.row, en(over.told[-1])) == (0, f"Nothing is recorded: {why}")
    with troubled(SaidTrouble, match="has that gauge: finish it first"):
        bench.begin(ASKED, KIT, ASKER)


def test_one_that_is_left_or_not_looked_at_makes_room_for_the_next(bench, gauge, monkeypatch):
    bench.begin(ASKED, KIT, ASKER)
    bench.answer(asked(bench).number, "q")
    assert en(asked(bench).told[-1]) == "Nothing is recorded: you left."
    monkeypatch.setattr(bench_page, "AWAY_NS", -1)
    bench.begin(ASKED, KIT, ASKER)
    over = asked(bench)
    assert en(over.told[-1]).endswith("nobody has looked for a quarter of an hour.")


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"gauge": "none"}, "No machine"),
        ({"blocks": "none"}, "^blocks: found 'none'; allowed: example-set"),
        ({"temperature": "warm"}, 'found "warm"'),
        ({"rested": "2 mm"}, 'found "2 mm"'),
        ({"over": "2 mm to 1 mm"}, "allowed: the shorter to the longer"),
        ({"lengths": "0 mm, 0.123 mm"}, "^lengths: found 0.123 mm; allowed: what three"),
    ],
)
def test_what_cannot_be_done_is_told_first(bench, given, words):
    with troubled(SaidTrouble, match=words):
        bench.begin(dataclasses.replace(ASKED, **given), KIT, ASKER)
    assert bench.view().talk is None
