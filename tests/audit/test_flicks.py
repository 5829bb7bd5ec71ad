"""The arm is flicked three times before the first reading: it comes back, and how nearly counts."""

import math
from dataclasses import replace
from random import Random

import pytest

from daq.audit.recompute import differences
from tests.audit.conftest import Bench, setup_of
from tests.words import en

AT = 1.0


class Windowed(Bench):
    """A reading is the latest ten numbers, whatever they do."""

    def still(self, samples):
        return samples[-10:]


def bench(resolution=0.001, *, kind=Windowed, **more):
    made = setup_of(**more)
    b = kind(replace(made, gauge=replace(made.gauge, resolution=resolution)))
    return b.start()


def down(*levels, rest=25, flick=(0.06, -0.05, 0.03), approach=(0.2, 0.5, 0.8)):
    """The contact comes down, and rests at each level with a flick between."""
    sent = list(approach)
    for i, level in enumerate(levels):
        sent += [level + f for f in flick] if i else []
        sent += [level] * rest
    return sent


def first(b, sent):
    return b.do("take", {"position": "front"}, sent)


def friction(b):
    return next(t for t in b.job.sweeps.latest.budgets.nod.terms if t.code == "term-friction")


def swept(b):
    for place in ("right", "back", "left", "front"):
        b.do("take", {"position": place}, [AT] * 25)
    assert list(differences(b.events, b.chunks.__getitem__)) == []
    return b


def test_three_returns_are_the_friction_of_the_budget():
    """JCGM 100, 4.2.2, and JCGM 101, 6.4.9.4: of four levels √3 times their scatter."""
    b = bench()
    assert "Flick the arm three times" in b.console["notes"][-1] and b.console["do"]["flick"]
    flicked, taken = first(b, down(1.0, 1.001, 1.0, 1.0))
    scatter = math.sqrt(3 * 0.00025**2 + 0.00075**2) / math.sqrt(3)
    assert flicked.friction.u_mm == pytest.approx(math.sqrt(3) * scatter)
    assert flicked.friction.dof == 3
    assert taken.reading.mean_mm == pytest.approx(1.0)
    term = friction(swept(b))
    assert (term.dof, term.note.code) == (None, "note-flicked")
    assert term.u_mm == pytest.approx(math.sqrt(1.5) * math.sqrt(3) * scatter, rel=0.2)


@pytest.mark.parametrize(
    ("count", "u_mm", "note"),
    [
        (0.01, 0.0005 / math.sqrt(3), "note-flicks-in-file"),
        (0.0005, 0.0005 / math.sqrt(12), "note-flicks-in-count"),
    ],
)
def test_a_scatter_that_a_count_hides_is_no_less_than_it_hides_nor_more_than_the_file_says(
    count, u_mm, note
):
    """JCGM 100, F.2.2.1: identical indications are no proof of no uncertainty."""
    b = bench(count)
    first(b, down(1.0, 1.0, 1.0, 1.0))
    term = friction(swept(b))
    assert (term.note.code, b.job.gauge.friction.u_mm) == (note, pytest.approx(u_mm))


@pytest.mark.parametrize("levels", [(1.0, 1.006, 1.006, 1.006), (1.0, 1.002, 1.004, 1.006)])
def test_a_loose_arm_and_a_creeping_contact_are_said_and_nothing_is_read(levels):
    b = bench()
    (event,) = first(b, down(*levels))
    assert not event.ok and b.job.reads.taken == () and b.job.step == "as-found"
    assert "did not come back: +0.006 mm" in en(b.job.message)
    assert len(first(b, down(1.006, 1.006, 1.006, 1.006, approach=()))) == 2


def test_what_was_sent_back_stays_in_the_friction_of_the_attempt_that_comes_back():
    """JCGM 100, 4.2.4: pooled; recheck finds it so in the record."""
    b = bench()
    for off in (0.003, -0.004):
        first(b, down(1.0, 1.0, 1.0 + off, 1.0))
    flicked, _ = first(b, down(1.0, 1.0, 1.0, 1.0))
    # Three levels at 0, one off by x, each about their mean: 3/4 x².
    scatter = math.sqrt(0.75 * (0.003**2 + 0.004**2) / 9)
    assert flicked.ok and flicked.friction.u_mm == pytest.approx(math.sqrt(6 / 4) * scatter)
    assert (flicked.friction.dof, flicked.friction.returns) == (6, 9)
    assert "9 returns" in en(friction(swept(b)).note)
    assert b.job.gauge.sent_back == ()


def test_sent_back_and_then_taken_unflicked_it_is_not_the_files_figure_that_counts():
    b = bench()
    first(b, down(1.0, 1.0, 1.003, 1.0))
    assert b.console["do"]["flick"]
    first(b, [AT] * 25)
    seen = math.sqrt(3) * 0.0015
    assert friction(swept(b)).u_mm == pytest.approx(math.sqrt(1.5) * seen, rel=0.2)


def test_what_was_sent_back_is_forgotten_with_the_arm_out_and_not_with_the_service():
    b = bench()
    first(b, down(1.0, 1.0, 1.003, 1.0))
    b.do("restarted")
    touched(b, touched=True)
    assert b.console["do"]["flick"] and len(b.job.gauge.sent_back) == 1
    first(b, [AT] * 25)
    swept(b)
    b.do("again", {"why": "a chip", "arm": "out"})
    touched(b)
    assert b.job.gauge.sent_back == () and b.job.gauge.friction is None


@pytest.mark.parametrize("levels", [(1.0,), (1.0, 1.0), (1.0, 1.0, 1.0)])
def test_fewer_flicks_ask_for_no_press_more_and_leave_the_files_figure(levels):
    b = bench()
    assert len(first(b, down(*levels))) == 1
    assert friction(swept(b)).note.code == "note-friction"


def test_a_contact_that_comes_down_in_steps_is_not_flicked():
    b = bench()
    steps = [at for level in (0.9, 0.93, 0.96, 0.98) for at in [level] * 25]
    assert len(first(b, [*steps, *[1.0] * 25])) == 1


def test_an_inch_gauge_and_one_that_counts_down():
    b = bench(0.00254)
    b.unit = "in"
    first(b, down(1.0, 1.0, 1.00762, 1.0))
    assert "+0.0003 in" in en(b.job.message)
    b = Windowed(setup_of(counts_up=False)).start(up=-1.0)
    flicked, _ = first(b, [-x for x in down(1.0, 1.0, 1.001, 1.0)])
    assert flicked.ok and flicked.friction.dof == 3


def test_noise_is_not_taken_for_an_arm_that_gives():
    """Samples that scatter by two counts: means of as many still agree."""
    for seed in range(30):
        rng = Random(seed)
        made = setup_of()
        b = Windowed(made)
        b.open("scheduled")
        b.do("prepared", {"serial_number": "P-1"})
        b.do("take", {}, [round(rng.gauss(0.0, 0.002), 3) for _ in range(25)])
        b.do("pushed", {}, [0.8, 1.1, *[round(rng.gauss(0.0, 0.002), 3) for _ in range(25)]])
        sent = [
            round(x + rng.gauss(0.0, 0.002), 3) for x in down(1.0, 1.0, 1.0, 1.0, flick=(0.2, -0.2))
        ]
        flicked, _ = first(b, sent)
        assert flicked.ok and flicked.friction.u_mm < math.sqrt(3) * 0.0012


def test_a_gauge_that_sends_on_its_key_is_not_flicked():
    b = Bench(setup_of())
    b.open("scheduled")
    b.do("prepared", {"serial_number": "P-1"})
    b.do("take", {}, [0.0])
    b.do("pushed", {}, [0.9])
    b.do("take", {}, [0.0])
    assert not b.console["do"]["flick"] and len(b.console["notes"]) == 1


def test_it_is_asked_once_and_again_only_after_the_arm_was_out():
    b = bench()
    first(b, down(1.0, 1.0, 1.0, 1.0))
    b.do("restarted")
    touched(b, touched=True)
    assert b.job.step == "as-found" and not b.console["do"]["flick"]
    first(b, [AT] * 25)
    swept(b)
    b.do("again", {"why": "a chip", "arm": "out"})
    touched(b)
    assert b.console["do"]["flick"] and b.job.gauge.friction is None


def touched(b, **card):
    b.do("prepared", {"serial_number": "P-1", **card})
    b.do("take", {}, [0.0] * 25)
    b.do("pushed", {}, [0.8, 1.1, *[0.0] * 25])
