"""Who sets the lessons on a practice mill and watches them: acts, the record's rows, refusals.

What hands do and what the record says come from different threads; here they become one list in
the order in which they happened, and the score is made of that.
"""

import threading
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, Final, Protocol

from daq.settings import quoted
from daq.virtual.deeds import Deed, Stand
from daq.virtual.learners import Learners, LessonRun
from daq.virtual.lessons import KNOWN, LESSONS, Lesson
from daq.virtual.score import WHOLE, Assignment, Bound, Lost, points, workmanship
from daq.words import AXES, Axis, Event, Figure, Said, SaidTrouble, said

ENDS: Final = ("Signed", "Abandoned")
MOST_MM: Final = 1.0
"""The largest error an instructor sets, across the sweep: the gauge still reads all of it."""
LOW: Final[dict[Axis, tuple[str, str]]] = {"side": ("right", "left"), "nod": ("front", "back")}
LONGEST_NAME: Final = 40
MOST_DEEDS: Final = 5_000
"""So much is kept of what one learner's hands do: many times an audit's."""


class LessonMill(Protocol):
    """The mill that lessons are set on."""

    def begin(self, lesson: Lesson) -> None:
        """Stand as the lesson begins."""

    def stand(self) -> Stand:
        """How it truly stands."""
        ...

    def zero(self) -> None:
        """Press the gauge's zero; may wait for the hands."""


class Tutor:
    """The lessons on one mill; safe to use from several threads."""

    def __init__(
        self,
        mill: LessonMill,
        bounds: Mapping[Axis, Bound],
        file: Path | None = None,
        press: Callable[[str], object] = lambda kind: None,
    ) -> None:
        """`press` presses "abandon" and "open"; `file` keeps the class across restarts.

        Raises StateFileError when that file is not such a one.
        """
        self._mill, self._bounds, self.press = mill, bounds, press
        self._learners = Learners(file)
        self._lock = threading.RLock()
        self._task: Assignment | None = None
        self._lesson = KNOWN
        self._ran: LessonRun | None = None
        self._deeds: list[Deed] = []
        self._row = 0
        self._read = 0

    def begin(
        self, key: str, learner: str = "", error_mm: tuple[float, float] = (0.0, 0.0)
    ) -> None:
        """Begin a lesson for a learner: an open audit is given up, and one is opened, of practice.

        Without a `key` it is the lesson of the run before, for the next learner. `error_mm`: side
        and nod of what an instructor sets, across the sweep. Raises SaidTrouble naming what is not
        allowed.
        """
        lesson = _lesson(key, error_mm) if key else self._lesson
        name = learner.strip()
        if len(name) > LONGEST_NAME or not name.isprintable():
            raise SaidTrouble(said("learner-not", found=quoted(name), most=LONGEST_NAME))
        self.press("abandon")
        self._mill.begin(lesson)
        with self._lock:
            stand = self._mill.stand()
            self._lesson, self._deeds, self._read = lesson, [], 0
            self._task = Assignment(stand, self._bounds, lesson.usual_s, lesson.more)
            self._ran = self._learners.add(lesson.key, name, stand.leans)
        self.press("open")

    def act(self, verb: str, args: Mapping[str, Any]) -> None:
        """Hands did something on the mill."""
        self._note(Deed("act", verb, self._row, self._mill.stand(), dict(args)))

    def refused(self, kind: str) -> None:
        """A press was refused."""
        self._note(Deed("refused", kind, self._row, self._mill.stand()))

    def row(self, event: Event) -> None:
        """A row of the record came."""
        with self._lock:
            self._row = event.seq
            ran = self._ran
            if self._task is None or ran is None or ran.state != "open":
                return
            if event.type == "AuditOpened":
                ran.audit = event.audit
            if event.audit != ran.audit:
                return
            stand, at_s = self._mill.stand(), event.stamp.mono_ns / 1e9
            cause = str(event.cause.get("kind", ""))
            self._note(Deed("row", event.type, event.seq, stand, event.data, at_s, cause))
            self._disturb(event)
            if event.type in ENDS:
                self._end(ran, self._task, stand, signed=event.type == "Signed")

    def show(self, nth: int) -> None:
        """Let the truth of a signed run be seen, or with 0 that of all; of an open one never."""
        with self._lock:
            for ran in self._learners.runs:
                ran.shown |= nth in (0, ran.nth) and ran.state == "signed"
            self._learners.keep()

    def line(self) -> Said | None:
        """What stands beside the mill: the aim of the run of now, then what it was worth."""
        with self._lock:
            if self._ran is None:
                return None
            aim = said("lesson-aim", lesson=self._ran.lesson)
            return aim if self._ran.state == "open" else _state(self._ran)

    def told(self) -> Mapping[str, Any]:
        """The lessons, the run of now, and the class, the latest first, as codes and numbers."""
        with self._lock:
            runs = [self._told(ran) for ran in reversed(self._learners.runs)]
            keys = [lesson.key for lesson in LESSONS]
            now = runs[0] if self._ran is not None else None
            return {"lessons": [_named(key) for key in keys], "now": now, "runs": runs}

    def _note(self, deed: Deed) -> None:
        with self._lock:
            room = deed.kind == "row" or len(self._deeds) < MOST_DEEDS
            if room and self._ran is not None and self._ran.state == "open":
                self._deeds.append(deed)

    def _disturb(self, event: Event) -> None:
        """Somebody presses the gauge's zero, where the lesson has it; nobody waits for that."""
        self._read += event.type == "ReadingTaken"
        if event.type == "ReadingTaken" and self._read == self._lesson.zeroed_after:
            threading.Thread(target=self._zero, name="practice-zero", daemon=True).start()

    def _zero(self) -> None:
        self._mill.zero()
        self.act("zero", {})

    def _end(self, ran: LessonRun, task: Assignment, stand: Stand, *, signed: bool) -> None:
        ran.state = "signed" if signed else "given-up"
        if signed:
            ran.lost = workmanship(task, self._deeds)
            ran.score, ran.left = points(ran.lost), stand.leans
        self._learners.keep()

    def _told(self, ran: LessonRun) -> Mapping[str, Any]:
        signed = ran.state == "signed"
        return {
            **_named(ran.lesson),
            "nth": ran.nth,
            "learner": ran.learner,
            "audit": ran.audit,
            "state": ran.state,
            "say": _state(ran),
            "score": ran.score if signed else None,
            "lost": [_lost(each) for each in ran.lost],
            "shown": ran.shown,
            "truth": [self._truth(ran, axis) for axis in AXES] if signed and ran.shown else [],
        }

    def _truth(self, ran: LessonRun, axis: Axis) -> Said:
        over = self._bounds[axis].over_mm
        began, left = ran.began[axis] * over, ran.left[axis] * over
        return said(
            "truth-axis",
            axis=axis,
            began=Figure(abs(began), 3),
            began_low=LOW[axis][began < 0.0],
            left=Figure(abs(left), 3),
            left_low=LOW[axis][left < 0.0],
            limit=Figure(self._bounds[axis].limit_mm, 3),
            over=Figure(over, 0),
        )


def _lesson(key: str, error_mm: tuple[float, float]) -> Lesson:
    if key == KNOWN.key:
        for name, mm in zip(("side_mm", "nod_mm"), error_mm, strict=True):
            if not abs(mm) <= MOST_MM:
                ends = Figure(-MOST_MM, 1), Figure(MOST_MM, 1)
                why = said("no-number-within", name=name, found=str(mm), low=ends[0], high=ends[1])
                raise SaidTrouble(why)
        return replace(KNOWN, side_mm=error_mm[0], nod_mm=error_mm[1])
    for lesson in LESSONS:
        if lesson.key == key:
            return lesson
    there = ", ".join(lesson.key for lesson in (*LESSONS, KNOWN))
    raise SaidTrouble(said("none-of-these", name="lesson", found=quoted(key), allowed=there))


def _named(key: str) -> Mapping[str, Any]:
    return {
        "lesson": key,
        "name": said("lesson", lesson=key),
        "aim": said("lesson-aim", lesson=key),
    }


def _state(ran: LessonRun) -> Said:
    if ran.state == "signed":
        return said("workmanship", score=ran.score, whole=WHOLE)
    return said("lesson-state", state=ran.state)


def _lost(lost: Lost) -> Mapping[str, Any]:
    def of(name: str) -> Figure | int | str:
        found = lost.of.get(name, "")
        return Figure(found, 1) if isinstance(found, float) else found

    say = said(
        "lost", why=lost.why, nth=of("nth"), fewest=of("fewest"), axis=of("axis"),
        times=of("times"), called=of("called"), stood=of("stood"),
    )  # fmt: skip
    return {"points": lost.points, "row": lost.row, "say": say}
