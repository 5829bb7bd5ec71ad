"""A whole audit: a virtual mill on a real port, the daemon, and hands that obey its console."""

import json
import math
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing

import pytest

from daq.audit.recompute import differences
from daq.ledger import LedgerView
from daq.metrology.flicks import FLICKS
from daq.virtual import Hands
from daq.words import AXES
from tests.progress import besides
from tests.system.daemon import HEADSWEEP, Daemon, headsweep

DIAMETER_MM = 200.0
START_MM = 0.5
LIMIT_MM = 0.025 / 300.0 * DIAMETER_MM
UNSEEN_MM = 0.004
"""What a sweep of this mill cannot see: the ring's wedge (0.001), visits and flicker."""
MOST_MOVES = 6
MOST_STEPS = 90


@pytest.fixture
def daemon(shop):
    """As a shop starts it."""
    with closing(Daemon(shop, program=(HEADSWEEP,)).start()) as running:
        yield running


def across(mill):
    """The true lean of each axis as the difference across the sweep."""
    return {axis: lean * DIAMETER_MM for axis, lean in mill.truth().items()}


def test_a_head_half_a_millimetre_out_is_squared_signed_and_on_record(mill, daemon, shop):
    found = across(mill)
    assert {axis: abs(d) for axis, d in found.items()} == pytest.approx(dict.fromkeys(AXES, 0.5))
    client = daemon.client
    hands = Hands(client.snapshot, client.press, client.live, mill)
    for _ in range(MOST_STEPS):
        if client.console()["step"] == "signed":
            break
        hands.step()
    assert client.console()["step"] == "signed", client.console()["title"]
    left = across(mill)
    assert max(map(abs, left.values())) <= LIMIT_MM + UNSEEN_MM
    moves = client.console()["moves"]
    print(f"{moves} moves; left across the sweep, mm: {left}")
    assert len(AXES) <= moves <= MOST_MOVES
    _check_the_friction(daemon)
    _check_the_record(daemon, found, left, moves)
    _check_the_commands(daemon, shop)


def _check_the_friction(daemon):
    """What the mill's contact scattered when its arm was flicked is in the budget.

    Where samples came so late that a rest was not seen, the file's figure stands in, and says so.
    """
    if not daemon.events("Flicked"):
        swept = daemon.events("SweepDone")[0]
        terms = swept.data["budgets"]["side"]["terms"]
        term = next(term for term in terms if term["name"]["code"] == "term-friction")
        assert term["note"]["code"] == "note-friction"
        return
    *_, flicked = daemon.events("Flicked")
    assert flicked.data["ok"] and len(flicked.data["rested_face_mm"]) == FLICKS + 1
    seen = flicked.data["friction"]
    swept = next(e for e in daemon.events("SweepDone") if e.seq > flicked.seq)
    terms = swept.data["budgets"]["side"]["terms"]
    term = next(term for term in terms if term["name"]["code"] == "term-friction")
    # Right against left with a steady drift taken out: √1.5 of one reading at even times, up to
    # twice where they were not.
    assert 0.99 * math.sqrt(1.5) <= term["u_mm"] / seen["u_mm"] <= 2.0
    assert "flick" in term["note"]["code"]


def _check_the_record(daemon, found, left, moves):
    """What was signed is how the mill really stood, and every decision comes out again."""
    (signed,) = daemon.events("Signed")
    for sweep, true in (("as_found", found), ("as_left", left)):
        read = {axis: each["d_mm"] for axis, each in signed.data[sweep].items()}
        assert read == pytest.approx(true, abs=UNSEEN_MM)
    assert [each["word"] for each in signed.data["as_found"].values()] == ["out", "out"]
    assert [each["word"] for each in signed.data["as_left"].values()] == ["in", "in"]
    assert signed.data["verdict"] == "conforms"
    assert signed.data["moves"] == moves == len(daemon.events("Moved"))
    with LedgerView.open(daemon.shop.data) as view:
        assert list(differences(view.events(), view.chunk)) == []


def _check_the_commands(daemon, shop):
    """`headsweep ledger` answers beside the running service."""
    rows = len(daemon.events()) + 1
    actions = ("verify", "show", "export", "recheck")
    with ThreadPoolExecutor(len(actions)) as people:
        verified, shown, exported, rechecked = people.map(
            lambda action: headsweep("ledger", action, "--data", shop.data), actions
        )
    for done in (verified, shown, exported, rechecked):
        assert (done.returncode, besides(done.stderr)) == (0, "")
    assert rechecked.stdout == "every decision comes out as recorded\n"
    assert verified.stdout.startswith(f"sound: {rows} rows")
    assert " Signed " in shown.stdout
    bodies = [json.loads(json.loads(line)["body"]) for line in exported.stdout.splitlines()]
    assert [body["seq"] for body in bodies] == list(range(1, rows + 1))
    assert bodies[-1]["type"] == "Signed"
