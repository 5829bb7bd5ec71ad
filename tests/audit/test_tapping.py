"""A vise's jaw is tapped in: what is read is a straight line that turns about one of its points."""

import pytest

from daq.audit.aim import aim
from daq.audit.recompute import differences
from daq.says import language
from tests.audit.conftest import Bench
from tests.audit.stations import FREE_MM, ON_MM, VISE, offering, opened, read, take
from tests.words import en

AT = (10.0, 75.0, 140.0)


class Jaw:
    """A line: slope and where it stands at 0. A tap turns it about `hinge`, by the place tapped."""

    def __init__(self, slope, hinge):
        self.slope, self.mid, self.hinge = slope, ON_MM - slope * 75.0, hinge

    def at(self, place):
        return self.mid + self.slope * place

    def round(self):
        return [round(self.at(place), 3) for place in (*AT, AT[0])]

    def tap(self, place, reads):
        about = self.hinge(place)
        turned = (reads - self.at(place)) / (place - about)
        self.slope, self.mid = self.slope + turned, self.mid - turned * about


def bench():
    return opened(Bench(offering({"vise": VISE})), "vise")


def obey(b, jaw):
    to = b.console["do"]["to"]
    assert b.console["do"]["what"] == "tap-end"
    jaw.tap(to["to"], to["reads"])
    b.do("tapped", {"done": True})
    assert b.job.step == "stations"
    return read(b, jaw.round())[-1].round


HINGES = {
    "the other end": lambda place: 10.0 if place > 75.0 else 140.0,
    "a bolt": lambda place: 30.0 if place > 75.0 else 120.0,
    "the middle": lambda place: 75.0,
    "a third": lambda place: 55.0,
}


@pytest.mark.parametrize("hinge", HINGES.values(), ids=HINGES)
@pytest.mark.parametrize("slope", [0.0004, -0.0007])
def test_whatever_it_turns_about_it_is_in_after_two_taps(hinge, slope):
    b, jaw = bench(), Jaw(slope, hinge)
    done = read(b, jaw.round())[-1].round
    assert (done.word, b.job.step) == ("out", "tap")
    for _ in range(2):
        if done.word != "in":
            done = obey(b, jaw)
    assert done.word == "in" and b.job.step == "clear"
    assert abs(jaw.slope) * 150.0 < 0.005
    b.do("cleared")
    signed = b.do("sign", {"done_by": "T"})[-1]  # as mounted it says nothing of earlier work
    assert signed.verdict == "conforms"
    assert list(differences(b.events, b.chunks.__getitem__)) == []


@pytest.mark.parametrize("slope", [0.0004, -0.0007])
def test_with_the_wrong_bolt_nipped_it_takes_longer(slope):
    b, jaw = bench(), Jaw(slope, lambda place: 30.0)
    done = read(b, jaw.round())[-1].round
    taps = 0
    while done.word != "in" and taps < 4:
        done, taps = obey(b, jaw), taps + 1
    assert done.word == "in"


def test_which_end_how_far_and_the_way_still_to_go():
    b = bench()
    read(b, [1.0, 1.015, 1.03, 1.0])
    assert b.console["title"] == "Tap the right end 0.030 away from the gauge."
    assert "140.0 mm from the jaw's left end" in b.console["detail"]
    assert b.console["stop_at"]["value"] == "1.000"
    live = aim(b.state).against(1.012)
    assert (live.state, language().words(live.say)) == ("down", "down 0.012 to go")
    assert en(aim(b.state).against(1.0).say) == "There"
    assert [row["word"] for row in b.console["axes"]] == ["out"]
    again = bench()
    read(again, [1.03, 1.015, 1.0, 1.03])
    assert again.console["title"] == "Tap the left end 0.030 away from the gauge."


def test_one_that_is_inside_is_not_tapped():
    b = bench()
    read(b, [1.0, 1.0, 1.0, 1.0])
    assert b.job.step == "clear" and aim(b.state) is None


def test_left_as_it_is_it_is_signed_as_what_it_is():
    b = bench()
    read(b, [1.0, 1.015, 1.03, 1.0])
    b.do("tapped", {"done": False})
    assert b.job.step == "clear"
    b.do("cleared")
    assert b.refused("sign", {"done_by": "T"}).code == "last-good-no-date"


def test_a_zero_meanwhile_voids_the_stop_at_and_a_jaw_tapped_to_zero_is_none():
    b = bench()
    read(b, [1.0, 1.015, 1.03, 1.0])
    b.do("zeroed", {}, [1.02] * 12 + [0.0] * 5)
    assert b.job.step == "stations" and aim(b.state) is None
    b = bench()
    b.do("touch")
    b.do("take", {}, [FREE_MM - 1.0] * 10)
    read(b, [0.0, 0.015, 0.03, 0.0])
    assert b.refused("zeroed", {}, [0.03] * 12 + [0.0] * 5).code == "zero-expected"


def test_a_restart_meanwhile_has_all_read_again():
    b = bench()
    read(b, [1.0, 1.015, 1.03, 1.0])
    b.do("restarted")
    b.prepare(free=FREE_MM)
    assert b.job.step == "stations" and b.job.reads.taken == ()
    take(b, 1.0)
