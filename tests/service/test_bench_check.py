"""A gauge checked at the terminal: a real reader on a pseudo-terminal, a person of typed lines."""

import io
import re
import sys

import pytest

from daq.audit import evidence
from daq.audit.apply import fold
from daq.audit.codec import decode
from daq.cli import parser
from daq.ledger import Ledger, LedgerView
from daq.ledger.errors import LedgerError
from daq.ledger.verify import verify
from daq.settings import SettingsError
from tests.words import troubled

KIT = "5f0c3a52-8f7e-4d6c-9f53-2f1f6f0a7c11"
ASKED = re.compile(r"(\S+) mm(?: block under the contact|\))(, from above)?, press Enter: $")


class Person:
    """Puts the block that is asked for under the contact, then presses Enter."""

    def __init__(self, gauge, out, errors=None, before=None):
        self.gauge, self.out, self.errors = gauge, out, errors or {}
        self.before = before or (lambda number: None)
        self.asked = []

    def readline(self):
        found = ASKED.search(self.out.getvalue())
        if not found:
            return self.other()
        self.asked.append(found[1].lstrip("("))
        self.before(len(self.asked))
        nominal = float(found[1].lstrip("("))
        error = self.errors.get((nominal, "down" if found[2] else "up"), 0.0)
        self.gauge.move_to(round(0.25 + nominal + error, 3))
        return "\n"

    def other(self):
        return "\n"


def check(shop, *more):
    args = [
        "gauge",
        "check",
        "--gauge",
        "practice",
        "--config",
        str(shop.config),
        "--data",
        str(shop.data),
    ]
    args = parser().parse_args([*args, "--lengths", "0 mm, 1 mm, 2 mm", *more])
    return args.act(args)


@pytest.fixture
def at(monkeypatch, gauge):
    """Sit a person down at the terminal; returns them."""

    def sit(person=Person, **given):
        out = io.StringIO()
        made = person(gauge, out, **given)
        monkeypatch.setattr(sys, "stdin", made)
        monkeypatch.setattr(sys, "stdout", out)
        return made

    return sit


def recorded(shop):
    with LedgerView.open(shop.data) as view:
        return [e for e in view.events() if e.type == "GaugeChecked"]


def test_a_good_gauge_passes_and_is_on_record_with_its_samples(shop, at):
    with Ledger.open(shop.data) as ledger:
        ledger.append([], [b"x"], {KIT: "Kit"})
    person = at(errors={(1.0, "up"): 0.002, (1.0, "down"): -0.001})
    assert check(shop, "--down", "--repeats", "2", "--done-by", " kit", "--yes") == 0
    assert person.asked == ["0", "1", "2", "1", "0"] * 2
    (event,) = recorded(shop)
    assert (event.machine, event.audit, event.actor) == ("", "", KIT)
    assert event.cause["kind"] == "gauge-check"
    assert event.cause["payload"]["lengths_mm"] == [0.0, 1.0, 2.0]
    found = decode(event)
    assert (found.gauge, found.serial_number, found.done_by) == ("practice", "P-0417", KIT)
    assert found.span_mm == pytest.approx(0.003)
    assert found.hysteresis_mm == pytest.approx(0.003)
    assert found.repeatability_mm == pytest.approx(0.0, abs=1e-9)
    assert found.passed
    assert [p.read_mm for p in found.points[:3]] == pytest.approx([0.0, 1.002, 2.0])
    assert "Good: its errors span 0.0030 mm; allowed 0.0040 mm." in person.out.getvalue()
    assert "Recorded as row 2." in person.out.getvalue()
    samples_agree(shop, event, found)
    assert verify(shop.data).ok


def test_who_did_it_stands_in_the_row_as_an_id(shop, at):
    at()
    assert check(shop, "--done-by", "Kit Arlow", "--yes") == 0
    (event,) = recorded(shop)
    with LedgerView.open(shop.data) as view:
        ((person, name),) = view.people().items()
        bodies = [body.decode() for _, body, _ in view.rows()]
    assert name == "Kit Arlow"
    assert event.data["done_by"] == event.cause["payload"]["done_by"] == event.actor == person
    assert not [body for body in bodies if "kit" in body.lower()]


def samples_agree(shop, event, found):
    """The stored samples of each window give back what was recorded."""
    with LedgerView.open(shop.data) as view:
        samples = {s.n: s for s in evidence.decode(view.chunk(event.evidence[0]))}
        assert fold(view.events()).gauges["practice"] == found
    means = []
    for first, last in event.cause["windows"]:
        window = [samples[n].value_mm for n in range(first, last + 1)]
        means.append(sum(window) / len(window))
    assert [m - means[0] for m in means] == pytest.approx([p.read_mm for p in found.points])


def test_a_gauge_that_is_wrong_does_not_pass(shop, at):
    person = at(errors={(2.0, "up"): 0.006})
    assert check(shop, "--yes") == 1
    (event,) = recorded(shop)
    assert not decode(event).passed
    assert "Not good: its errors span 0.0060 mm" in person.out.getvalue()


def test_a_gauge_that_counts_down_is_judged_the_same(shop, gauge, at):
    shop.set("gauges/practice.toml", "counts_up", "false")
    move_to = gauge.move_to
    gauge.move_to = lambda value: move_to(-value)
    at(errors={(2.0, "up"): 0.003})
    assert check(shop, "--yes") == 0
    (event,) = recorded(shop)
    assert decode(event).points[-1].read_mm == pytest.approx(2.003)


def test_whoever_does_it_is_asked_and_may_keep_it_off_the_record(shop, at):
    class Doubter(Person):
        def other(self):
            return "Kit\n" if self.out.getvalue().endswith("Done by (or nothing): ") else "n\n"

    person = at(Doubter)
    assert check(shop) == 2
    assert recorded(shop) == []
    assert "Nothing is recorded: as you wish." in person.out.getvalue()


@pytest.mark.parametrize(("typed", "why"), [("", "the input ended."), ("q\n", "you left.")])
def test_leaving_records_nothing(shop, at, typed, why):
    class Leaver(Person):
        def readline(self):
            return typed

    person = at(Leaver)
    assert check(shop, "--yes") == 2
    assert recorded(shop) == []
    assert f"Nothing is recorded: {why}" in person.out.getvalue()


def test_a_value_that_does_not_settle_is_asked_for_again(shop, gauge, at):
    shop.set("shop.toml", "timeout_s", "2.0")

    class Shaky(Person):
        def readline(self):
            line = super().readline()
            if len(self.asked) == 1:
                gauge.shake()
            return line

    person = at(Shaky)
    assert check(shop, "--yes") == 0
    assert person.asked == ["0", "0", "1", "2"]
    assert "No reading: still moving" in person.out.getvalue()


def test_a_cable_that_was_out_ends_the_check(shop, gauge, at):
    at_replug = at(before=lambda number: gauge.replug() if number == 2 else None)
    assert check(shop, "--yes") == 2
    assert recorded(shop) == []
    assert "the cable was out" in at_replug.out.getvalue()


def test_a_folder_the_service_holds_is_told_with_what_to_do(shop, at):
    at()
    shop.data.mkdir()
    with Ledger.open(shop.data), troubled(LedgerError, match="Stop the service first"):
        check(shop, "--yes")


def test_what_cannot_be_checked_is_refused_before_anything_is_asked(shop, at):
    person = at()
    with troubled(SettingsError, match=r"--gauge: found 'arm'; allowed: .*practice"):
        check(shop, "--gauge", "arm")
    with troubled(SettingsError, match=r"allowed: at most the gauge's travel, 12\.7 mm"):
        check(shop, "--lengths", "0 mm, 20 mm")
    assert person.asked == []


@pytest.mark.parametrize(
    ("option", "value", "words"),
    [
        ("--lengths", "1 mm", "found 1 length; allowed: two or more"),
        ("--lengths", "0 mm, 1 apple", 'found " 1 apple"; allowed: a length such as'),
        ("--lengths", "0 mm, 1", "allowed: a length such as"),
        ("--repeats", "0", "found '0'; allowed: 1 to 100"),
    ],
)
def test_an_option_that_makes_no_sense_is_told(shop, capsys, option, value, words):
    with pytest.raises(SystemExit):
        check(shop, option, value)
    assert words in capsys.readouterr().err
