"""What the setup page tells of a machine: its file in its own units, and what was learned."""

import dataclasses
import math

import pytest

from daq.service import learned_facts, machine_facts, machine_file
from daq.squaring.learned import Learned
from daq.squaring.response import Answering
from daq.squaring.tightening import ShiftStats
from daq.words import Both, said
from tests.words import en


@pytest.fixture
def mill(config):
    return machine_file.read(config / "machines" / "practice-mill.toml")


@pytest.fixture
def ram(config):
    return machine_file.read(config / "machines" / "example-ram-mill.toml")


def told(machine):
    """Every fact by its key."""
    grouped = [fact for group in machine_facts.groups(machine) for fact in group.facts]
    facts = [*machine_facts.facts(machine), *grouped]
    assert len({fact.key for fact in facts}) == len(facts)
    assert all(en(fact.say) and en(fact.value) for fact in facts)
    return {fact.key: en(fact.value) for fact in facts}


def group(machine, key):
    return next(each for each in machine_facts.groups(machine) if each.key == key)


def with_nod(machine, **changes):
    return dataclasses.replace(machine, nod=dataclasses.replace(machine.nod, **changes))


def test_a_machine_as_most_are(mill):
    facts = told(mill)
    expected = {
        "positions": "front, right, back, left, and front again",
        "seat": "a ring",
        "ram_angle": "not swung",
        "loosen": "one axis at a time",
        "verdict": "guarded: 95 % sure, each axis by itself",
        "audit_every": "no interval agreed",
        "side.adjust": "worm",
        "side.tighten": "not watched bolt by bolt",
        "side.torque": "none given",
        "z": "by raising the knee",
        "drawbar": "by hand",
        "brake": "none",
        "air": "none",
        "people": "one",
        "after_crash": "the side bolts, the nod bolts",
        "side.pivot": "0 ± 5 mm away, 380 ± 75 mm up",
        "side.coupling": "0 % ± 2 %",
        "uncertainty.wedge": "at most 0.003 mm",
        "uncertainty.spindle_axial": "at most 0.001 mm",
        "uncertainty.local_error": "a fifth of the gauge's permissible error, less half a digit",
        "uncertainty.parallel": "at most 1°",
        "uncertainty.temperature": "at most 1 degC",
        "uncertainty.thickness": "25 mm",
        "uncertainty.condition": "not said",
    }
    assert {key: facts[key] for key in expected} == expected
    assert "second_gauge" not in facts
    assert group(mill, "work").facts == ()
    assert "names no cutter and no work" in en(group(mill, "work").note)


def test_an_inch_shops_mill_with_a_swung_ram(ram):
    facts = told(ram)
    expected = {
        "sweep_radius": "5 in",
        "seat": "a plate",
        "ram_angle": "swung 20° anticlockwise, seen from above",
        "verdict": "guarded: 99 % sure, both axes at once",
        "audit_every": "every 90 days",
        "side.tolerance": '"facing", wide facing: 0.015 mm over 300 mm (common practice, '
        "no source)",
        "nod.limit": "front low by 0.0003937 in over 11.811 in at most, never the other way",
        "side.adjust": "worm, finishing with the right rising, a turn is 0.019685 in over "
        "11.811 in, backlash 0.004 in",
        "nod.adjust": "shims, bolts 9 in apart",
        "nod.tighten": "left, right; 4 times round, each moving it 0.0003 in at most",
        "table": "3, 0.625 in wide, 2.5 in apart, left to right, the frontmost -2.5 in from the "
        "spindle; kept clear of by 0.1 in",
        "side.torque": "45 lbf ft, wrench no. 7",
        "z": "by the quill",
        "drawbar": "powered",
        "brake": "by hand",
        "air": "to be vented",
        "people": "two, a lock each",
        "after_crash": "upper left, lower right, upper right, lower left, knuckle left, "
        "knuckle right, ram lock, turret",
        "nod.coupling": "0 % ± 2 %, besides what the ram's angle makes of it",
        "uncertainty.wedge": "0.0002 in, measured",
        "uncertainty.spindle_axial": "0.00005 in, measured",
        "uncertainty.repeatability": "0.00004 in, worth 12 degrees of freedom",
        "uncertainty.local_error": "at most 0.0001 in",
        "uncertainty.condition": "cold, quill in, locks on",
        "work.cutter": "3 in",
        "work.feed": "left to right",
    }
    assert {key: facts[key] for key in expected} == expected


def test_facts_that_few_machines_have(mill):
    clockwise = dataclasses.replace(
        mill,
        second_gauge="far",
        second_radius=90.0,
        ram_angle=-math.radians(7.5),
        loosen="both",
        audit_every=1,
        verdict=dataclasses.replace(mill.verdict, name="simple", together="vector"),
    )
    facts = told(with_nod(clockwise, limit_low=0.01, wanted_lean=0.01 / 300.0))
    assert facts["second_gauge"] == "far, 90 mm"
    assert facts["ram_angle"] == "swung 7.5° clockwise, seen from above"
    assert facts["loosen"] == "both axes at once"
    assert facts["audit_every"] == "every day"
    assert facts["verdict"] == (
        "simple: the number as it is, the length of the lean against one limit"
    )
    assert facts["nod.limit"] == ("front low by 0.025 mm, back low by 0.01 mm at most, over 300 mm")
    assert facts["nod.wanted_lean"] == "0.01 mm over 300 mm"


def test_a_tolerance_that_is_no_longer_known_keeps_its_name(mill):
    assert told(with_nod(mill, tolerance="old"))["nod.tolerance"] == "old"


# P mm, κ, h mm of side, then of nod, then what tightening does to each, by how
# much each goes back when it is let go, and then until it is tight (slopes); and how well.
MEAN = (-1.27, -0.012, 380.0, 182.88, 0.0304, 330.0, 0.0, 0.0042 / 300.0, 0.0, 3e-5, 0.0, 4e-6)
DOUBTS = (2.54, 0.004, 75.0, 1.016, 0.0012, 75.0, 0.0075 / 300.0, 0.0011 / 300.0, *[5e-6] * 4)


def learned(**changes):
    variances = [doubt * doubt for doubt in DOUBTS]
    rows = tuple(
        tuple(variance if i == j else 0.0 for j in range(len(DOUBTS)))
        for i, variance in enumerate(variances)
    )
    return Learned(Answering(MEAN, rows), audits=3, **changes)


def learned_told(machine, known):
    return {fact.key: en(fact.value) for fact in learned_facts.group(machine, known).facts}


def test_nothing_was_learned_yet(mill):
    found = learned_facts.group(mill, None)
    assert (found.facts, found.note) == ((), said("learned-nothing"))


def test_what_was_learned_is_told_with_its_doubt(mill):
    facts = learned_told(mill, learned())
    assert facts == {
        "learned.side.pivot": "-1.3 ± 2.5 mm",
        "learned.side.coupling": "-1.2 ± 0.4 %",
        "learned.side.tightening": "none seen yet",
        "learned.side.rest": "not seen yet",
        "learned.side.stop": "none seen yet",
        "learned.nod.pivot": "182.9 ± 1.0 mm",
        "learned.nod.coupling": "3.0 ± 0.1 %",
        "learned.nod.tightening": "none seen yet",
        "learned.nod.rest": "not seen yet",
        "learned.nod.stop": "none seen yet",
    }
    note = learned_facts.group(mill, learned()).note
    assert en(note) == "From 3 audits; after ± the standard uncertainty."


def test_what_was_learned_is_told_in_the_machines_unit(ram):
    ram_known = dataclasses.replace(learned(), file_ram=ram.ram_angle)
    facts = learned_told(ram, ram_known)
    assert facts["learned.side.pivot"] == "-0.05 ± 0.10 in"
    assert facts["learned.nod.pivot"] == "7.20 ± 0.04 in"


def test_what_tightening_does_is_told_once_it_was_seen(mill, ram):
    seen = {
        "shift_stats": Both(ShiftStats(), ShiftStats().after(0.004 / 300.0).after(0.005 / 300.0))
    }
    facts = learned_told(mill, learned(**seen))
    assert facts["learned.nod.tightening"] == "+0.0042 ± 0.0011 mm over 300 mm, from 2"
    assert facts["learned.side.tightening"] == "none seen yet"
    facts = learned_told(ram, learned(**seen, file_ram=ram.ram_angle))
    assert facts["learned.nod.tightening"] == "+0.00017 ± 0.00004 in over 11.8 in, from 2"


def test_how_far_it_goes_back_and_how_turns_end_is_told_once_it_was_seen(mill):
    """What the gauge sees: the slope times √(200 · (sweep radius + pivot's distance)), mm."""
    once = Both(ShiftStats(), ShiftStats().after(0.002))
    facts = learned_told(mill, learned(rest_stats=once, stop_stats=once))
    sees = math.sqrt(200.0 * (mill.sweep_radius + 182.88))
    back, doubt, later = (f"{slope * sees:.4f}" for slope in (3e-5, 5e-6, 4e-6))
    assert facts["learned.nod.rest"] == (
        f"{back} ± {doubt} mm, until it is tight by +{later} mm more, from 1"
    )
    assert facts["learned.nod.stop"] == ("+0.0020 mm, within ± 0.0012 mm of it as a rule, from 1")
    assert facts["learned.side.rest"] == "not seen yet"


def test_a_ram_that_the_file_gives_another_angle_makes_it_void(mill):
    found = learned_facts.group(mill, dataclasses.replace(learned(), file_ram=0.1))
    assert (found.facts, found.note) == ((), said("learned-of-another-ram"))
