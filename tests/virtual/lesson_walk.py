"""A learner who does a lesson in memory: the mill's own head, the real decisions, no wire."""

import random
from collections.abc import Mapping
from typing import Any, Final

from daq.says import language
from daq.service.files import load, shipped
from daq.service.in_memory import InMemory
from daq.virtual import CannotError, HeadModel, Machinist, Simulated
from daq.virtual.deeds import Stand
from daq.virtual.hands import FINISH
from daq.virtual.head import Head
from daq.virtual.lessons import Lesson
from daq.virtual.score import Bound
from daq.virtual.turning import bring_to_stop
from daq.virtual.tutor import Tutor
from daq.words import AXES, Axis, Position

BOUNDS: Final = dict.fromkeys(AXES, Bound(0.025, 300.0))
"""As the practice mill's file has them."""
MOST_STEPS = 120
FREE_MM = -0.35
OFF_SCALE: Final = 0.004
"""A slope, 0.8 mm across the sweep: what leans more is brought closer by square."""


class AtHead(HeadModel):
    """The mill's head under a gauge that shows thousandths, and the tutor told of each act."""

    def __init__(self) -> None:
        self.head = Head(Lesson("none", 0, 0.0, 0.0, 1).mill, random.Random(1))
        self.tutor: Tutor | None = None
        self.zero_mm = FREE_MM

    def begin(self, lesson: Lesson) -> None:
        self.head.begin(lesson)

    def stand(self) -> Stand:
        return self.head.stand()

    def zero(self) -> None:
        self.zero_mm = -self.head.compression()

    def act(self, verb: str, **args: Any) -> None:
        assert self.tutor is not None
        self.tutor.act(verb, args)

    def reads(self, at: Position | None) -> float:
        state = self.head.state
        if at is None:
            state.contact = "free"
            return round(self.zero_mm, 3)
        if at != state.position or state.contact == "free":
            self.head.land(at)
            if state.contact == "free":
                self.head.set_down()
        return round(max(0.0, self.head.compression()) + self.zero_mm, 3)

    def turn(self, axis: Axis, at: Position, reads: float) -> None:
        self.reads(at)

        def to_go() -> float:
            return reads - self.head.compression() - self.zero_mm

        if not bring_to_stop(to_go, lambda mm: self.by_hand(axis, mm), FINISH[axis]):
            raise CannotError(f"the number does not come to {reads}")

    def by_hand(self, axis: Axis, amount_mm: float) -> None:
        self.head.turn(axis, self.head.grip(amount_mm))
        self.act("turn", axis=axis, amount_mm=amount_mm)

    def crack(self, axis: Axis) -> None:
        self.head.joint(axis).tight = False
        self.head.shift(axis, self.head.drop_mm(axis), 0.0)
        self.act("loosen", axis=axis)

    def pull(self, axis: Axis, part: float) -> None:
        self.head.hold(axis)
        self.head.pull(axis, 1.0 - self.head.joint(axis).pulled)
        self.head.settle(axis, 0.0)
        self.act("tighten", axis=axis)

    def bring_closer(self, axis: Axis) -> None:
        """By square and scale: what a hand does when the gauge cannot read the head."""
        self.crack(axis)
        self.by_hand(axis, -200.0 * self.stand().leans[axis])
        self.pull(axis, 1.0)


class Walk:
    """One learner, one lesson, from opening to signature."""

    def __init__(self, key: str) -> None:
        self.mill = AtHead()
        self.tutor = self.mill.tutor = Tutor(self.mill, BOUNDS, press=self.press)
        self.house = InMemory(load(shipped()).audit_setup("practice-mill"), language().told)
        self.at = Simulated(self.house, self.mill)
        self.machinist = Machinist(self.at)
        self.told_of = 0
        self.wipes = True
        self.tutor.begin(key, "A. Learner")
        self.tell()

    def press(self, kind: str) -> None:
        """As the demo does for a lesson; nothing is open before one."""
        if kind == "open":
            self.house.press(kind, {"reason": "practice"}, tuple)

    def tell(self) -> None:
        """The record's new rows come to the tutor."""
        for event in self.house.events[self.told_of :]:
            self.tutor.row(event)
        self.told_of = len(self.house.events)

    def perfect(self, until: str = "signed") -> Mapping[str, Any]:
        """Do as the console says, and what the lesson is about; return the run."""
        for _ in range(MOST_STEPS):
            page = self.at.look()
            if page["step"] == until:
                break
            self.one(page)
        return self.run

    def one(self, page: Mapping[str, Any]) -> None:
        """The one next thing."""
        off = [action for action in page["actions"] if action["kind"] == "off-scale"]
        place = page["do"].get("position")
        if page["step"] == "closer":
            for axis in AXES:
                if abs(self.mill.stand().leans[axis]) > OFF_SCALE:
                    self.mill.bring_closer(axis)
        if off and place and self.mill.reads(place) <= self.mill.zero_mm:
            self.at.press("off-scale", off[0]["payload"])
        else:
            swept = (e.data for e in self.house.events if e.type == "SweepDone")
            if self.wipes and not all(each["usable"] for each in swept):
                self.mill.head.state.chip_mm = 0.0
            self.machinist.step(page)
        self.tell()

    @property
    def run(self) -> Mapping[str, Any]:
        found: Mapping[str, Any] = self.tutor.told()["now"]
        return found
