"""The contact hangs free, is pushed in and let go: it must come back within a count."""

from dataclasses import replace
from random import Random

import pytest

from daq.audit.recompute import differences
from tests.audit.conftest import Bench, setup_of
from tests.words import en

FREE = 0.4
IN = [FREE, FREE + 0.6, FREE + 1.1, FREE + 0.5]


class Windowed(Bench):
    """The service's window: the last half second, whatever the number does in it."""

    def still(self, samples):
        return samples[-25:]


def touching(resolution=0.001, *, kind=Bench, free=(FREE,) * 25, **more):
    """A bench at the push, with a gauge of that count."""
    made = setup_of(**more)
    b = kind(replace(made, gauge=replace(made.gauge, resolution=resolution)))
    b.open("scheduled")
    b.do("prepared", {"serial_number": "P-1"})
    b.do("take", {}, list(free))
    return b


def push(b, back, push_in=tuple(IN)):
    return b.do("pushed", {}, [*push_in, *([back] * 25 if isinstance(back, float) else back)])[-1]


def rechecked(b):
    return list(differences(b.events, b.chunks.__getitem__)) == []


def test_a_contact_that_comes_back_goes_on():
    b = touching()
    event = push(b, FREE)
    assert event.ok and b.job.step != "touch-push" and rechecked(b)


@pytest.mark.parametrize("off", [0.006, 0.002, -0.006, 0.3])
def test_a_stuck_contact_and_a_loose_arm_are_said_by_how_much(off):
    """A contact that sticks stays in; an arm that gives comes back elsewhere, either way."""
    b = touching()
    event = push(b, FREE + off)
    assert not event.ok and b.job.step == "touch-push" and rechecked(b)
    assert event.away_face_mm == pytest.approx(off)
    told = f"{off:+.3f} mm"
    assert en(b.job.message) == (
        f"It did not come back: {told}. Arm loose, or contact sticking. See to it, then push again."
    )
    assert push(b, FREE).ok


@pytest.mark.parametrize("count", [0.01, 0.001, 0.0005, 0.00254, 0.0127])
def test_back_means_within_a_count_of_this_gauge(count):
    assert push(touching(count), FREE + count).ok
    assert push(touching(count), FREE - count).ok
    assert not push(touching(count), FREE + 2 * count).ok


def test_an_inch_gauge_is_told_in_inches():
    b = touching(0.00254)
    b.unit = "in"
    b.do("undo")
    b.do("take", {}, [FREE] * 25)
    push(b, FREE + 3 * 0.00254)
    assert "+0.0003 in" in en(b.job.message)


def test_a_gauge_that_counts_down_is_told_as_its_face_shows():
    b = touching(counts_up=False, free=[-FREE] * 25)
    event = push(b, -FREE - 0.006, [-x for x in IN])
    assert event.away_face_mm == pytest.approx(-0.006) and not event.ok


def test_what_creeps_back_is_waited_for_and_what_stays_is_told():
    """The service reads it settled: what is still on its way back is not judged."""
    creeping = [FREE + 0.02 - 0.0004 * i for i in range(50)]
    assert push(touching(kind=Windowed), [*creeping, *[FREE + 0.0005] * 25]).ok
    assert not push(touching(kind=Windowed), [*creeping[:30], *[FREE + 0.008] * 25]).ok


def test_noise_makes_a_count_as_wide_as_it_is():
    """Scattering by 3 counts, the means of two windows differ by more than one in a fifth."""
    for seed in range(60):
        rng = Random(seed)

        def noisy(at, rng=rng):
            return [round(at + rng.gauss(0.0, 0.003), 3) for _ in range(25)]

        assert push(touching(kind=Windowed, free=noisy(FREE)), noisy(FREE)).ok
        assert not push(touching(kind=Windowed, free=noisy(FREE)), noisy(FREE + 0.015)).ok


class Keyed(Bench):
    """A gauge that sends on its key alone, a second apart."""

    def samples(self, numbers):
        made = []
        for number in numbers:
            self.wait(1.0)
            made += super().samples([number])
        return made


def test_of_a_key_gauge_each_press_of_its_key_is_seen():
    """Its key is the press: the first with the contact held in, the second with it let go."""
    b = touching(kind=Keyed, free=[FREE])
    assert en(b.console["title"]) == "Hold the contact in until its number shows."
    assert not b.do("pushed", {}, [FREE + 0.9])[-1].ok
    assert b.job.step == "touch-back"
    assert b.do("take", {}, [FREE])[-1].ok
    assert b.job.step == "as-found" and rechecked(b)


def test_a_key_gauge_that_stays_in_is_pushed_again():
    b = touching(kind=Keyed, free=[FREE])
    b.do("pushed", {}, [FREE + 0.9])
    assert not b.do("take", {}, [FREE + 0.004])[-1].ok
    assert b.job.step == "touch-push" and "+0.004 mm" in en(b.job.message)


def test_of_a_slow_gauge_one_press_shows_both():
    b = touching(kind=Keyed, free=[FREE] * 5)
    assert push(b, [FREE] * 5, [FREE, FREE + 0.9]).ok


class Repeating(Keyed):
    """A quick finger, and two numbers for each press."""

    def samples(self, numbers):
        made = []
        for number in numbers:
            self.wait(0.36)
            made += Bench.samples(self, [number, number])
        return made


def test_quick_presses_that_send_several_numbers_each_are_no_stream():
    """Six numbers in 0.8 s, as many as a gauge of 7 Hz sends: between the presses it is still."""
    b = touching(kind=Repeating, free=[FREE] * 3)
    assert not b.do("pushed", {}, [FREE + 0.9] * 3)[-1].ok
    assert b.job.step == "touch-back"
