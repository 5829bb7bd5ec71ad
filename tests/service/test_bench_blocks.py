"""A gauge checked with a set of blocks at the terminal: what the person does is noticed."""

import io
import re
import sys

import pytest

from daq.audit.codec import decode
from daq.cli import parser
from daq.ledger import LedgerView
from daq.service.bench_plan import rule_of
from daq.service.files import load
from daq.settings import SettingsError
from tests.words import troubled

ASKED = re.compile(r".*\d+ of \d+: .*?((?:\d\S* mm(?: and )?)+)(?: blocks?|\)).*Enter: $")
FACTS = ("--state", "found", "--temperature", "22 °C", "--rested", "2 h", "--done-by", "Kit")
SHORT = ("--lengths", "0 mm, 1 mm, 1.08 mm, 1.16 mm, 1.2 mm")


class Technician:
    """Puts the blocks that are asked for under the contact; `does`: what else, by the how-manieth.

    `typed`: what is answered to anything else, in order, then Enter.
    """

    def __init__(self, gauge, out, does=None, typed=(), off=None):
        self.gauge, self.out, self.does = gauge, out, does or {}
        self.typed, self.off, self.asked, self.zero = list(typed), off or {}, [], 0.25

    def readline(self):
        found = ASKED.search(self.out.getvalue())
        if not found:
            return f"{self.typed.pop(0) if self.typed else ''}\n"
        self.asked.append(found[1].removesuffix(" and "))
        length = sum(float(each.split()[0]) for each in found[1].split(" and "))
        answer = (self.does.get(len(self.asked)) or (lambda _: "\n"))(self)
        length = 0.0 if length == 0.0 else length
        self.gauge.move_to(round(self.zero + length + self.off.get(length, 0.0), 3))
        return answer


@pytest.fixture
def at(monkeypatch, gauge):
    def sit(**given):
        out = io.StringIO()
        made = Technician(gauge, out, **given)
        monkeypatch.setattr(sys, "stdin", made)
        monkeypatch.setattr(sys, "stdout", out)
        return made

    return sit


def check(shop, *more):
    where = ("--gauge", "practice", "--config", str(shop.config), "--data", str(shop.data))
    args = parser().parse_args(["gauge", "check", *where, "--blocks", "example-set", *more])
    return args.act(args)


def recorded(shop):
    with LedgerView.open(shop.data) as view:
        return [decode(e) for e in view.events() if e.type == "GaugeChecked"]


def test_blocks_temperature_and_what_it_is_worth_are_asked_and_recorded(shop, at):
    person = at(typed=["x", "l", "warm", "68 °F", "90 min"], off={1.16: 0.001})
    assert check(shop, *SHORT, "--done-by", "Kit", "--yes") == 0
    (found,) = recorded(shop)
    work = found.work
    assert (work.state, work.celsius, work.rested_s) == ("left", pytest.approx(20.0), 5400.0)
    assert (work.blocks.certificate, work.blocks.date) == ("B-0032-26", "2026-02-09")
    assert (work.low_mm, work.high_mm, work.travel_mm) == (0.0, 1.2, 12.7)
    assert (work.word, work.taken_back, found.passed) == ("in", 0, True)
    assert work.short_mm == pytest.approx(0.001, abs=0.0001)
    # The certificate's deviations are in the lengths: 1 mm is +0.02 um, 1.16 mm what it says.
    assert found.points[1].nominal_mm == pytest.approx(1.00002)
    assert found.points[1].off_mm == pytest.approx(0.00002)
    out = person.out.getvalue()
    assert "Good: its errors span 0.001" in out
    assert "Checked over 1.2000 of 12.7000 mm." in out
    assert "The check may itself be off by" in out
    assert "Within 0.2000 mm its error changes" in out


def test_what_floats_leave_of_nothing_is_in_no_row(shop, at):
    at()
    assert check(shop, "--lengths", "0 mm, 1 mm, 1.1 mm", *FACTS, "--yes") == 0
    (found,) = recorded(shop)
    tiny = [mm for p in found.points for mm in (p.nominal_mm, p.read_mm) if 0.0 < abs(mm) < 1e-9]
    assert tiny == []
    assert found.repeatability_mm == 0.0


def test_this_block_again_takes_one_reading_back(shop, at):
    person = at(does={3: lambda _: "b\n"})
    assert check(shop, "--lengths", "0 mm, 1 mm, 2 mm", *FACTS, "--yes") == 0
    assert person.asked[:5] == ["0 mm", "1 mm", "2 mm", "1 mm", "2 mm"]
    (found,) = recorded(shop)
    assert (found.work.taken_back, len(found.points)) == (1, 10)


def zeroed(person):
    """Zeroed while the contact stands on the block before."""
    person.zero -= 1.25
    return "\n"


def test_a_zero_pressed_in_mid_check_is_asked_about_and_is_no_error_of_the_gauge(shop, at):
    person = at(does={3: zeroed}, typed=["z"])
    assert check(shop, "--lengths", "0 mm, 1 mm, 2 mm", *FACTS, "--yes") == 0
    assert person.asked[:5] == ["0 mm", "1 mm", "2 mm", "0 mm", "1 mm"]
    out = person.out.getvalue()
    assert "That is -1.250 mm from what the blocks say" in out
    assert "All is read again, from the first length." in out
    (found,) = recorded(shop)
    assert found.span_mm == pytest.approx(0.0, abs=0.0002)


def test_a_zero_of_two_counts_is_seen_in_the_samples(shop, at):
    def settled(person):
        person.gauge.move_to(0.002)
        person.gauge.rest(12)
        person.gauge.jump_to(0.0)
        person.gauge.rest(12)
        return "\n"

    person = at(does={2: settled}, typed=["z"])
    assert check(shop, "--lengths", "0 mm, 1 mm", *FACTS, "--yes") == 0
    assert person.asked[:4] == ["0 mm", "1 mm", "0 mm", "1 mm"]
    assert "it went from 0.002 mm to zero while it stood still" in person.out.getvalue()


def test_another_block_is_read_again_and_a_bad_gauge_is_kept(shop, at):
    person = at(off={2.0: 0.1}, typed=["", "k", "k", "k", "k"])
    assert check(shop, "--lengths", "0 mm, 1 mm, 2 mm", *FACTS, "--yes") == 1
    assert person.asked[:5] == ["0 mm", "1 mm", "2 mm", "2 mm", "1 mm"]
    (found,) = recorded(shop)
    assert (found.work.word, found.passed) == ("out", False)
    assert "Not good: its errors span 0.100" in person.out.getvalue()


def test_the_unit_key_is_noticed_and_pressed_back(shop, at):
    def press(unit):
        return lambda person: person.gauge.unit_key(unit) or "\n"

    person = at(does={3: press("in"), 4: press("mm")})
    assert check(shop, "--lengths", "0 mm, 1 mm, 2 mm", *FACTS, "--yes") == 0
    assert person.asked[:5] == ["0 mm", "1 mm", "2 mm", "2 mm", "1 mm"]
    assert "It shows in now: press its unit key back to mm." in person.out.getvalue()


def test_left_alone_it_goes_over_the_travel_and_within_a_turn(shop, at):
    class Left(Exception):
        pass

    def leave(person):
        raise Left

    person = at(does={1: leave})
    with pytest.raises(Left):
        check(shop, *FACTS)
    assert "1 of 86: set the contact on the surface" in person.out.getvalue()


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (("--blocks", "none"), r"--blocks: found 'none'; allowed: example-set"),
        (("--repeats", "1"), r"--repeats: found 1; allowed with --blocks: 2 or more"),
        (("--over", "13 mm to 14 mm"), r"found 2 lengths of this set from 13 to 14 mm"),
        (("--lengths", "0 mm, 0.123 mm"), r"--lengths: found 0\.123 mm; allowed: what three"),
    ],
)
def test_what_cannot_be_done_with_the_set_is_told_first(shop, more, words):
    with troubled(SettingsError, match=words):
        check(shop, *more)


@pytest.mark.parametrize("line", ['nominal = "1 apple"', 'nominal = "1 mm", uncertainity = "1 um"'])
def test_a_sets_file_says_what_is_wrong_in_it(shop, line):
    path = shop.config / "blocks" / "example-set.toml"
    text = path.read_text(encoding="utf-8").replace('nominal = "0.5 mm"', line, 1)
    path.write_text(text, encoding="utf-8")
    with troubled(SettingsError, match=r"example-set\.toml: blocks\[0\]"):
        check(shop)


def test_the_rule_is_that_of_the_machines_that_name_the_gauge(shop):
    assert rule_of(load(shop.config), "practice").name == "guarded"
    assert rule_of(load(shop.config), "example-text") == rule_of(load(shop.config), "no-such")
