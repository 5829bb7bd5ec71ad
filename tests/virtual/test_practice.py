"""The practice panel: what it offers, and that it refuses nonsense in plain words."""

import itertools
import json
import re
from pathlib import Path
from typing import Any

import pytest

from daq.virtual import MillSpec, VirtualMill
from daq.virtual.lessons import Lesson
from daq.virtual.panel import perform
from daq.words import SaidTrouble
from tests.words import told, troubled


def quick(folder: Path) -> VirtualMill:
    return VirtualMill(MillSpec(), tty_link=folder / "gauge", speed=1000.0)


def test_everything_the_panel_offers_can_be_done(mill: VirtualMill) -> None:
    done: set[str] = set()
    prepared: tuple[tuple[str, ...], ...] = ((), ("loosen", "set"), ("jaw",))
    for _, verbs in itertools.product(range(2), prepared):
        for verb in verbs:
            perform(mill, verb, {"axis": "nod", "to": 10})
        for one in mill.state()["operations"]:
            perform(mill, one["verb"], one["args"])
            done.add(one["verb"])
    assert done == {
        *(
            "swing",
            "set",
            "free",
            "ring",
            "push",
            "flick",
            "zero",
            "unit",
            "turn",
            "tighten",
            "loosen",
        ),
        *("bolt", "arm", "bump", "reset", "unplug", "replug", "fault", "spindle", "table"),
        *("jaw", "tap", "wipe"),
    }
    json.dumps(told(mill.state()), allow_nan=False)


def test_the_panel_offers_only_what_makes_sense(tmp_path: Path) -> None:
    mill = quick(tmp_path)

    def verbs() -> list[tuple[str, object]]:
        found = mill.state()["operations"]
        return [
            (one["verb"], one["args"].get("axis") or one["args"].get("position")) for one in found
        ]

    assert ("turn", "nod") not in verbs()
    assert ("tighten", "nod") not in verbs()
    assert ("swing", "front") not in verbs()
    assert ("free", None) not in verbs()
    mill.loosen("nod")
    assert verbs().count(("turn", "nod")) == 4
    assert ("loosen", "nod") not in verbs()
    assert ("turn", "side") not in verbs()


@pytest.mark.parametrize(
    ("verb", "args", "words"),
    [
        ("dance", {}, "verb: found 'dance'; allowed: free, "),
        ("swing", {"position": "above"}, "position: found 'above'; allowed: front, front-right"),
        ("swing", {}, "position: found nothing"),
        ("loosen", {"axis": ["side"]}, "axis: found"),
        ("turn", {"axis": "nod", "amount_mm": "much"}, "amount_mm: found 'much'"),
        ("turn", {"axis": "nod", "amount_mm": float("nan")}, "amount_mm: found nan"),
        ("turn", {"axis": "nod", "amount_mm": True}, "amount_mm: found true"),
        ("turn", {"axis": "nod", "amount_mm": 99}, "amount_mm: found 99"),
        ("fault", {"name": "plague"}, "name: found 'plague'; allowed: none, junk"),
    ],
)
def test_nonsense_from_a_panel_is_refused_in_plain_words(
    tmp_path: Path, verb: str, args: dict[str, Any], words: str
) -> None:
    with troubled(SaidTrouble, match=re.escape(words)):
        perform(quick(tmp_path), verb, args)


@pytest.mark.parametrize(
    ("out_mm", "drawn"), [(0.0, 0.0), (0.0249, 0.0), (-0.0249, 0.0), (0.75, 9.0), (-9.0, -12.0)]
)
def test_the_head_is_drawn_far_too_far_out_and_what_is_in_tolerance_not_at_all(
    tmp_path: Path, out_mm: float, drawn: float
) -> None:
    mill = quick(tmp_path)
    mill.begin(Lesson("known", 1, 0.0, out_mm * 200.0 / 300.0, 1))
    picture = mill.state()["picture"]
    assert (picture["side_deg"], picture["nod_deg"], picture["down"]) == (0.0, drawn, False)


def test_a_chip_stays_until_the_lifted_ring_is_wiped(tmp_path: Path) -> None:
    mill = quick(tmp_path)
    mill.begin(Lesson("chip", 1, 0.0, 0.0, 1, chip_mm=0.06))
    mill.set_on()
    assert not mill.wipe() and mill.stand().chip
    mill.free()
    assert mill.wipe() and not mill.stand().chip
