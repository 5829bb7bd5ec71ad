"""A morning's look at two spots against the last signed sweep: it judges and teaches nothing.

What two spots see is plain geometry: on a plane leaning by D_side and D_nod across the circle the
front reads D_nod/2 from the middle, the right D_side/2, and so their difference (D_nod − D_side)/2.
"""

from dataclasses import replace

import pytest

from daq.audit.answers import Callout
from daq.audit.apply import fold
from daq.audit.good_enough import answer
from daq.audit.input import Refused
from daq.audit.recompute import differences
from daq.audit.seal import decode, encode, sealed
from daq.audit.state import Shop
from daq.audit.trend import dues
from daq.checks.sweep.callouts import Bore
from daq.virtual import Hand, HeadModel, Machinist, Simulated
from tests.audit.conftest import Bench
from tests.audit.morning import NOD, SIDE, looked, offering, opened, read, reads, signed
from tests.words import en

BORE = Callout(bore=Bore(40.0, 0.02))
PACE_S = 8.0
"""From the hands' work to the press, as in the counted hours of the heads' benchmark."""


def told(b):
    return " / ".join(
        str(note) for note in (b.console["title"], b.console["detail"], *b.console["notes"])
    )


def test_nothing_moved_is_said_with_what_would_have_been_seen_and_what_cannot_be():
    b = opened(signed())
    done = read(b)[-1].round
    assert done.word == "in" and done.results[0].value_mm == pytest.approx(0.0, abs=1e-9)
    assert done.results[0].limit_mm is None and done.results[0].probability is None
    assert b.console["verdict"]["word"] == "same"
    assert b.console["verdict"]["say"] == "Morning check: nothing moved"
    seen = f"Would have seen {done.results[0].sees_mm:.3f} over 200 mm, 19 times in 20"
    assert seen in told(b)
    assert "Blind to a lean along front right to back left." in told(b)


def test_a_head_that_moved_is_to_be_looked_at_and_nothing_rests_on_its_sweep_any_more():
    b = signed()
    assert answer(b.state, BORE)
    done = looked(b, nod=NOD + 0.03)
    assert done.verdict == "look-closer" and done.as_left is None
    assert done.round.results[0].value_mm == pytest.approx(0.015)
    with pytest.raises(Refused) as refused:
        answer(b.state, BORE)
    assert refused.value.said.code == "enough-doubted"
    assert b.refused("open", {"reason": "scheduled", "check": "morning"}).code == "enough-doubted"
    signed(b)
    assert looked(b).verdict == "nothing-moved" and answer(b.state, BORE)


@pytest.mark.parametrize(
    ("spots", "side", "nod", "sees"),
    [
        ("both", 0.03, 0.0, True),
        ("both", 0.0, 0.03, True),
        ("both", 0.03, 0.03, False),  # along the corner between them
        ("both", 0.03, -0.03, True),
        ("side", 0.02, 0.0, True),
        ("side", 0.0, 0.2, False),
        ("nod", 0.0, 0.02, True),
        ("nod", 0.2, 0.0, False),
    ],
)
def test_two_spots_see_along_their_line_and_nothing_across_it(spots, side, nod, sees):
    b = opened(signed(Bench(offering(spots))))
    done = read(b, side=SIDE + side, nod=NOD + nod)[-1].round
    assert (done.word == "out") is sees
    assert b.job.check.against.blind == {"both": "front-right", "side": "nod", "nod": "side"}[spots]


@pytest.mark.parametrize(
    ("limit", "side", "nod", "blind"),
    [
        (0.05, 0.008, -0.006, "front-right"),  # right and back low: each goes its own way out
        (0.05, 0.008, 0.006, "front-left"),
        (0.015, 0.003, -0.001, "nod"),  # too sharp a limit for half a difference: the worse axis
        (0.015, 0.001, -0.003, "side"),
    ],
)
def test_which_spots_follows_from_what_the_sweep_says_matters(limit, side, nod, blind):
    b = opened(signed(Bench(offering("best", limit)), side=side, nod=nod))
    assert b.job.check.against.blind == blind


def test_a_bare_table_is_held_against_what_the_same_spots_read_its_form_and_all():
    b = Bench(offering("both", seat="table"))
    b.start("scheduled")
    values = {"front": 1.001, "right": 0.999, "back": 1.001, "left": 0.999}
    b.sweep(*values.values())
    b.do("cleared")
    b.do("sign", {"done_by": "T"})
    opened(b)
    last = b.job.check.options["last"]
    assert last["levels_mm"]["front"] == pytest.approx(1.001)
    for spot in b.job.check.options["spots"]:
        assert b.console["do"]["position"] == spot
        done = b.do("take", {"station": spot}, [values[spot]] * 10)
    assert done[-1].round.results[0].value_mm == pytest.approx(0.0, abs=1e-9)
    cancels = {term.code for term in done[-1].round.results[0].budget.terms if term.cancels}
    assert cancels == {"term-form", "term-zero"}


def test_it_is_refused_where_there_is_nothing_to_compare_with():
    wish = {"reason": "scheduled", "check": "morning"}
    b = Bench(offering())
    assert b.refused("open", wish).code == "enough-no-sweep"
    signed(b)
    assert b.refused("open", {**wish, "reason": "crash"}).code == "enough-crash"
    assert b.refused("open", {**wish, "reason": "maintenance"}).code == "enough-moved"
    for what, setup in otherwise(b.setup):
        before, b.setup = b.setup, setup
        said = b.refused("open", wish)
        assert said.code == "read-otherwise" and said.of["what"] == what
        assert en(said).endswith("nothing to compare with. Do the whole check.")
        b.setup = before
    b.open("scheduled")
    b.powered()
    b.do("prepared", {"serial_number": "P-1", "ram_moved": True})
    b.abandon("no time")
    assert b.refused("open", wish).code == "enough-moved"


def otherwise(setup):
    gauge = replace(setup.gauge, serial_number="P-2")
    yield "gauge", replace(setup, gauge=gauge)
    for what, key in (("radius", "sweep_radius"), ("seat", "seat"), ("ram", "ram_angle")):
        value = {"radius": 90.0, "seat": "plate", "ram": 0.1}[what]
        yield what, replace(setup, machine=replace(setup.machine, **{key: value}))


def test_it_teaches_nothing_and_signs_nothing_of_the_axes():
    b = signed()
    before = b.state
    done = looked(b)
    assert (done.as_found, done.as_left, done.sweeps) == (None, None, ())
    for kept in ("history", "learned", "visits", "swept"):
        assert getattr(b.state, kept) == getattr(before, kept)
    row = next(each for each in dues(b.state, b.setup.machine, "2026-06-02") if each.looks)
    assert (row.check, row.word, row.due.days_left) == ("morning", "in", 0)
    assert list(differences(b.events, b.chunks.__getitem__)) == []
    assert fold(b.events) == b.shop
    assert decode(encode(sealed(Shop({b.state.machine: b.state})))).shop.machines


def test_given_up_after_it_said_to_look_closer_it_stands():
    b = opened(signed())
    read(b, nod=NOD + 0.03)
    b.abandon("no time")
    assert b.state.swept.since == "doubted"


def test_a_gauge_that_counts_the_wrong_way_or_hangs_in_the_air_is_refused_without_a_push():
    b = opened(signed())
    assert b.refused("take", {"station": "front"}, [-1.0] * 10).code == "off-contact"
    assert b.refused("take", {"station": "front"}, [0.0] * 10).code == "off-contact"


def test_after_a_restart_it_is_pushed_and_read_anew():
    b = opened(signed())
    b.do("take", {"station": "front"}, [reads("front")] * 10)
    b.do("restarted")
    b.prepare()
    assert b.job.step == "stations" and b.job.reads.taken == () and b.job.anew is None
    assert read(b)[-1].round.word == "in"


class Stands(HeadModel):
    """A head that only stands there."""

    def reads(self, at):
        return reads(at) if at else 0.0


@pytest.mark.parametrize(
    ("machine", "presses"),
    [({}, 7), ({"drawbar": "power"}, 8), ({"z": "powered", "drawbar": "power"}, 9)],
)
def test_it_is_a_minute_s_work(machine, presses):
    b = signed(Bench(offering(**machine)))
    rows, began_ns, pressed = len(b.events), b.ns, b.presses
    b.do("open", {"reason": "scheduled", "check": "morning"})
    b.wait(PACE_S)
    Machinist(Simulated(b, Stands()), Hand(pace_s=PACE_S)).work("signed")
    assert b.presses - pressed == presses
    assert b.state.last.signed.verdict == "nothing-moved"
    cards = [e.type for e in b.events[rows:]]
    assert not {"Warmed", "TableReadied", "Pushed", "Loosened"} & {*cards}
    print(f"{presses} presses, {(b.ns - began_ns) / 1e9:.1f} s")
    if not machine:
        assert (b.ns - began_ns) / 1e9 < 60.0  # by its own counted clock
