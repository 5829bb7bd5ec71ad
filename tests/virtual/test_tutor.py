"""The tutor: what becomes of a lesson from its beginning to the class, and what nobody is shown."""

import json
import threading
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from daq.virtual import StateFileError
from daq.virtual.deeds import Stand
from daq.virtual.lessons import KNOWN, Lesson
from daq.virtual.score import Bound
from daq.virtual.tutor import Tutor
from daq.words import AXES, Event, SaidTrouble, Stamp
from tests.words import told, troubled

BOUNDS = dict.fromkeys(AXES, Bound(0.025, 300.0))
AUDIT = "11111111-2222-4333-8444-555555555555"
TRUTH = (
    "Side to side: at first 0.150 mm with the right end low, as signed 0.003 mm with the left end "
    "low, over 300 mm. Allowed 0.025 mm."
)


class Mill:
    """A mill that stands where it is told, and writes down what is done to it."""

    def __init__(self) -> None:
        self.begun: list[Lesson] = []
        self.leans = {"side": 0.0005, "nod": 0.0}
        self.zeroed = threading.Event()

    def begin(self, lesson: Lesson) -> None:
        self.begun.append(lesson)

    def stand(self) -> Stand:
        return Stand(dict(self.leans), "front")

    def zero(self) -> None:
        self.zeroed.set()


@pytest.fixture
def mill() -> Mill:
    return Mill()


def row(kind: str, seq: int = 1, audit: str = AUDIT, **data: Any) -> Event:
    stamp = Stamp(seq * 1_000_000_000, 0, "boot", True)
    return Event("ledger", seq, kind, 1, "mill", audit, stamp, "screen", {"kind": ""}, data, ())


def sign(tutor: Tutor, mill: Mill) -> None:
    tutor.row(row("AuditOpened"))
    tutor.refused("take")
    mill.leans = {"side": -0.00001, "nod": 0.0}
    tutor.row(row("Signed", 9))


def now(tutor: Tutor) -> Mapping[str, Any]:
    found: Mapping[str, Any] = told(tutor.told())["now"]
    return found


def test_the_score_comes_with_the_signature_and_the_truth_when_it_is_shown(mill: Mill) -> None:
    tutor = Tutor(mill, BOUNDS)
    assert told(tutor.line()) is None
    tutor.begin("two-spots", " A. Learner ")
    tutor.show(0)
    assert (now(tutor)["state"], now(tutor)["score"], now(tutor)["truth"]) == ("open", None, [])
    sign(tutor, mill)
    run = now(tutor)
    assert (run["score"], run["learner"], run["audit"]) == (98, "A. Learner", AUDIT)
    assert run["lost"] == [{"points": 2, "row": 1, "say": "A take that was refused"}]
    assert told(tutor.line()) == "Workmanship 98 of 100"
    assert run["truth"] == []
    tutor.show(run["nth"])
    assert now(tutor)["truth"][0] == TRUTH


def test_another_audits_rows_and_what_comes_after_the_end_are_nobodys(mill: Mill) -> None:
    tutor = Tutor(mill, BOUNDS)
    tutor.row(row("AuditOpened", audit="other"))
    tutor.begin("two-spots")
    tutor.row(row("Signed", audit="other"))
    assert now(tutor)["state"] == "open"
    sign(tutor, mill)
    tutor.refused("take")
    tutor.row(row("Signed", 12))
    assert now(tutor)["score"] == 98


def test_the_next_learner_begins_where_the_last_one_did(mill: Mill) -> None:
    pressed: list[str] = []
    tutor = Tutor(mill, BOUNDS, press=pressed.append)
    tutor.begin("known", "First", (0.2, -0.1))
    tutor.row(row("AuditOpened"))
    tutor.row(row("Abandoned", 2))
    tutor.begin("", "Second")
    tutor.begin("")
    assert mill.begun == [Lesson("known", KNOWN.seed, 0.2, -0.1, KNOWN.presses)] * 3
    states = [(run["learner"], run["state"]) for run in tutor.told()["runs"]]
    assert states == [("", "open"), ("Second", "given-up"), ("First", "given-up")]
    assert pressed == ["abandon", "open"] * 3


@pytest.mark.parametrize(
    ("lesson", "name", "error", "words"),
    [
        ("dance", "", (0.0, 0.0), "lesson: found 'dance'; allowed: two-spots, .*known"),
        ("known", "", (0.0, 1.5), "nod_mm: found 1.5; allowed: a number from -1.0 to 1.0"),
        ("known", "", (float("nan"), 0.0), "side_mm: found nan"),
        ("chip", "x" * 41, (0.0, 0.0), "learner: found .*; allowed: up to 40 letters"),
        ("chip", "half \ud800", (0.0, 0.0), "learner: found"),
    ],
)
def test_what_is_no_lesson_is_refused_and_begins_nothing(
    mill: Mill, lesson: str, name: str, error: tuple[float, float], words: str
) -> None:
    tutor = Tutor(mill, BOUNDS, press=lambda kind: pytest.fail(f"{kind} was pressed"))
    with troubled(SaidTrouble, match=words):
        tutor.begin(lesson, name, error)
    assert (mill.begun, tutor.told()["runs"]) == ([], [])


def test_somebody_zeroes_the_gauge_once_after_the_second_reading(mill: Mill) -> None:
    tutor = Tutor(mill, BOUNDS)
    tutor.begin("zeroed")
    tutor.row(row("AuditOpened"))
    reading = {"reading": {"position": "front"}}
    tutor.row(row("ReadingTaken", 2, **reading))
    assert not mill.zeroed.is_set()
    tutor.row(row("ReadingTaken", 3, **reading))
    for thread in threading.enumerate():
        if thread.name == "practice-zero":
            thread.join()
    assert mill.zeroed.is_set()
    mill.zeroed.clear()
    tutor.row(row("ReadingTaken", 4, **reading))
    assert not mill.zeroed.is_set()


def test_the_class_outlives_the_demo(mill: Mill, tmp_path: Path) -> None:
    file = tmp_path / "class.json"
    tutor = Tutor(mill, BOUNDS, file)
    tutor.begin("chip", "First")
    sign(tutor, mill)
    before = told(tutor.told())["runs"]
    tutor.begin("chip", "Second")
    again = Tutor(mill, BOUNDS, file)
    assert told(again.told())["now"] is None
    runs = told(again.told())["runs"]
    assert (runs[0]["state"], runs[1:]) == ("given-up", before)
    again.begin("chip")
    assert again.told()["runs"][0]["nth"] == 3


@pytest.mark.parametrize("text", ['{"runs": [{"nth": 1}]}', "[]", '{"runs": 3}', "no json"])
def test_a_file_that_is_no_class_is_named(mill: Mill, tmp_path: Path, text: str) -> None:
    file = tmp_path / "class.json"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(StateFileError, match=r"class\.json: "):
        Tutor(mill, BOUNDS, file)
    assert file.read_text(encoding="utf-8") == text


def test_what_is_kept_is_plain(mill: Mill, tmp_path: Path) -> None:
    file = tmp_path / "class.json"
    Tutor(mill, BOUNDS, file).begin("chip", "First")
    (run,) = json.loads(file.read_text(encoding="utf-8"))["runs"]
    assert (run["learner"], run["state"], run["began"]) == ("First", "open", mill.leans)
