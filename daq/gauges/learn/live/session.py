"""Learning one gauge from its first byte to its file: a conversation about its face."""

import time
from collections.abc import Callable, Sequence
from contextlib import closing
from dataclasses import replace
from typing import Final

from daq.gauges.config import GaugeConfig, SerialLine
from daq.gauges.errors import LearnError
from daq.gauges.learn import judge
from daq.gauges.learn.encodings import apart
from daq.gauges.learn.evidence import Encoding
from daq.gauges.learn.face import TypedFace, typed
from daq.gauges.learn.live.ear import Asking, Ear, Heard, Listening, Opener, opened
from daq.gauges.learn.live.person import Attendant, Step, nothing
from daq.gauges.learn.live.search import REQUESTS, Patience, Search, spoken
from daq.gauges.learn.live.trial import tried
from daq.gauges.learn.live.ways import HeardWay, LearnedGauge, Sought
from daq.gauges.learn.seen import believed, last_read
from daq.gauges.learn.writing import Habits
from daq.units import MM_PER
from daq.words import Said, said

_MOST_FACES: Final = 5
_FACES_OF_BYTES: Final = 3
"""Numbers in binary are told by three faces, written ones by two."""
_SIGNS: Final = 2
_TYPED_AGAIN: Final = 3
_FEWEST: Final = 3
"""So many frames of a number at rest are waited for."""
_PATIENT: Final = 5.0
_SURE: Final = 1.5
"""An encoding that costs so much more than the simplest need not be asked about."""
_SMOOTH: Final = 0.4
_MOVED: Final = 10
_SHOWN_EVERY_S: Final = 0.3
_SHORTEST_PAUSE_S, _LONGEST_PAUSE_S = 0.01, 0.2
_MOST_INTERVAL_S: Final = 60.0


class Session:
    """One gauge at one port, and one person at the gauge."""

    def __init__(
        self,
        url: str,
        person: Attendant,
        *,
        patience: Patience,
        opener: Opener = opened,
        now_ns: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        """Prepare; nothing is opened before `learn`."""
        self._now_ns = now_ns
        self._ear = Ear(url, opener, now_ns)
        self._person = person
        self._patience = patience
        self._faces: list[TypedFace] = []

    def learn(self, sought: Sought) -> LearnedGauge:
        """Return what the gauge is like.

        Raises:
            LearnError: nothing made sense of the faces, or the contact was not pushed.
            LinkError: the port cannot be used.
        """
        self._person.tell(said("learn-leave-free"))
        search = Search(self._ear, self._person, sought.speeds, self._patience)
        found = search.found(REQUESTS, Asking(sought.request), sought.key)
        if not found:
            raise LearnError(said("learn-nothing-came"))
        if found[0].clear:
            self._person.tell(said("learn-understood", line=spoken(found[0].line)))
        ways = [HeardWay(each, (each.heard,)) for each in found]
        for nth in range(_MOST_FACES):
            step = self._next(nth, ways)
            if step is None:
                break
            ways = self._typed(step, ways, sought)
        return self._concluded(ways, sought)

    def reachable(self) -> None:
        """See that the port can be opened, before anybody is asked anything.  Raises LinkError."""
        self._ear.open(SerialLine("")).close()

    def try_out(self, config: GaugeConfig, learned: LearnedGauge) -> None:
        """Read the gauge by its file for a while.

        Raises:
            LearnError: the file does not read it, or not well.
            LinkError: the port cannot be used.
        """
        if config.talk.mode == "key":
            self._person.asked("key", said("learn-press-once"), nothing)
        with closing(self._ear.open(config.line)) as port:
            good, bad = tried(config, port, self._now_ns, self._patience.key_s, learned.strange)
        self._person.tell(said("learn-tried-out", good=good, bad=bad))

    def _next(self, nth: int, ways: Sequence[HeardWay]) -> tuple[Step, Said] | None:
        """Return what is to be done with the contact before the next face is typed."""
        if nth == 0:
            return "free", said("learn-face-free")
        if nth == 1:
            return "pushed", said("learn-face-pushed")
        if not any(way.fits for way in ways):
            return "elsewhere", said("learn-face-elsewhere")
        signs = {face.number < 0 for face in self._faces if face.number}
        if len(signs) < _SIGNS and nth == len(self._faces):
            return "elsewhere", said("learn-face-minus")
        clear = ways[0].found.clear
        if (not clear and len(self._faces) < _FACES_OF_BYTES) or len(self._doubts(ways)) > 1:
            return "elsewhere", said("learn-face-elsewhere")
        return None

    def _doubts(self, ways: Sequence[HeardWay]) -> list[Encoding]:
        """Return the encodings that are about as simple, and read other numbers."""
        least = min((fit.cost for way in ways for fit in way.fits), default=0.0)
        doubts: list[Encoding] = []
        for way in ways:
            near = [fit for fit in way.fits if fit.cost <= least + _SURE]
            doubts += apart(near, way.evidence(self._faces, 0.0))
        return doubts

    def _typed(
        self, asked: tuple[Step, Said], ways: list[HeardWay], sought: Sought
    ) -> list[HeardWay]:
        """Have one more face typed, and return the ways that can say it, too.

        Raises LearnError when none can.
        """
        step, say = asked
        doubted: TypedFace | None = None
        for _ in range(_TYPED_AGAIN):
            heard, face = self._face(step, say, ways)
            if face is None:
                return ways
            self._faces.append(face)
            more = [way.more(*each) for way, each in zip(ways, heard, strict=True)]
            if len(self._faces) > 1 or more[0].found.clear:
                more = [way.fitted(self._faces, sought.travel_mm) for way in more]
            if left := [way for way in more if way.fits or len(self._faces) == 1]:
                return left
            if len(self._faces) < _FACES_OF_BYTES and face == doubted:
                return more  # typed twice alike: what makes it of the bytes, a third one tells
            self._faces.pop()
            doubted = face
            step, say = "again", said("learn-face-again", face=str(face))
        raise LearnError(said("learn-no-fit"))

    def _face(
        self, step: Step, say: Said, ways: Sequence[HeardWay]
    ) -> tuple[list[tuple[Heard, Heard]], TypedFace | None]:
        """Have a face typed; return what each way told while it was, and since the one before."""
        if len(ways) == 1:
            with closing(self._ear.listen(ways[0].found.line, ways[0].found.asking)) as listening:
                face = self._number(step, say, self._showing(ways[0], listening))
                if face is not None:
                    self._person.tell(said("learn-hold"))
                window = self._still(ways[0], listening)
                return [(window, listening.heard)], face
        face = self._number(step, say, nothing)
        if face is None or not self._faces:
            # It was listened to with the contact free already.
            return [(way.found.heard, Heard(way.found.line, ())) for way in ways], face
        heard = []
        for nth, way in enumerate(ways, 1):
            heard.append(self._held(way, nth, len(ways)))
        return heard, face

    def _held(self, way: HeardWay, nth: int, of: int) -> tuple[Heard, Heard]:
        """Hear a number at rest in one of several ways."""
        line = way.found.line
        if way.found.mode == "key":
            self._person.asked("key", said("learn-hold-press"), nothing)
            heard = self._ear.hear(line, self._patience.key_s, lambda heard: len(heard.pieces) > 1)
            return heard, heard
        self._person.tell(said("learn-hold-on", nth=nth, of=of, line=spoken(line)))
        with closing(self._ear.listen(line, way.found.asking)) as listening:
            window = self._still(way, listening)
            return window, window

    def _still(self, way: HeardWay, listening: Listening) -> Heard:
        """Hear a number at rest for a while, on a slow line for longer."""
        if way.found.mode == "key":
            return listening.last_piece

        def enough(heard: Heard) -> bool:
            return heard.seconds >= self._patience.still_s and len(heard.pieces) >= _FEWEST

        return listening.on(_PATIENT, enough)

    def _number(self, step: Step, say: Said, meanwhile: Callable[[], None]) -> TypedFace | None:
        """Have a number typed, until it is one; None when none is to be had."""
        while True:
            answer = self._person.asked(step, say, meanwhile)
            if not answer and len(self._faces) > 1:
                return None
            unit = self._faces[-1].unit if self._faces else None
            if (face := typed(answer, unit)) is not None:
                return face
            say = said("learn-no-number", typed=answer)

    def _showing(self, way: HeardWay, listening: Listening) -> Callable[[], None]:
        """Show the number that is believed, as it goes."""
        due = listening.now_s

        def meanwhile() -> None:
            nonlocal due
            listening.poll()
            if listening.now_s < due:
                return
            due = listening.now_s + _SHOWN_EVERY_S
            pieces = listening.latest.pieces
            number = last_read(way.fits[0].table, pieces) if way.fits else ""
            if not number and way.found.clear:
                number = believed(pieces)
            if number:
                self._person.show(number)

        return meanwhile

    def _concluded(self, ways: Sequence[HeardWay], sought: Sought) -> LearnedGauge:
        """Return the simplest of all that fits; one that jumps about under a hand is none.

        Raises LearnError when the contact was not pushed, or nothing is smooth.
        """
        grew = self._faces[1].mm - self._faces[0].mm
        least = _MOVED * 10.0 ** -self._faces[0].places * MM_PER[self._faces[0].unit]
        if abs(grew) < least:
            raise LearnError(said("learn-not-pushed"))
        fitting = [way for way in ways if way.fits]
        for each in sorted(fitting, key=lambda each: each.fits[0].cost):
            way = each if each.found.clear else self._worked(each, sought)
            fits = [fit for fit in way.fits if way.found.clear or fit.smooth >= _SMOOTH]
            if fits:
                doubts = apart([f for f in fits if f.cost <= fits[0].cost + _SURE],
                               way.evidence(self._faces, sought.travel_mm))  # fmt: skip
                heard = way.whole
                return LearnedGauge(
                    way.found, self._habits(way, fits[0]), fits[0], grew > 0.0,
                    tuple(self._faces), heard, tuple(doubts[1:]),
                    judge.strange(fits[0].table, heard.pieces),
                )  # fmt: skip
        raise LearnError(said("learn-no-fit"))

    def _worked(self, way: HeardWay, sought: Sought) -> HeardWay:
        """Have the contact worked, its number shown: bytes that are no number would jump."""
        self._person.tell(said("learn-work"))
        with closing(self._ear.listen(way.found.line, way.found.asking)) as listening:
            show = self._showing(way, listening)
            begun = listening.now_s
            while listening.now_s - begun < self._patience.work_s:
                show()
            heard = listening.heard
        return replace(way, heard=(*way.heard, heard)).fitted(self._faces, sought.travel_mm)

    def _habits(self, way: HeardWay, fit: Encoding) -> Habits:
        longest = max(way.heard, key=lambda each: each.seconds)
        good = len(judge.decoded(fit.table, longest.pieces) or ())
        interval_s = longest.seconds / max(1, good - 1) or 1.0
        asking = way.found.asking
        if way.found.mode == "asks":
            interval_s = asking.interval_s
        pause_s = None
        if fit.table.get("apart") == "pause":
            pause_s = min(max(longest.silence_s / 2.0, _SHORTEST_PAUSE_S), _LONGEST_PAUSE_S)
        interval_s = min(interval_s, _MOST_INTERVAL_S)
        return Habits(
            way.found.mode, interval_s, asking.request, pause_s, asking.start, asking.echo
        )
