"""Finding a gauge's speed, framing and talk by trying the usual ones."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from daq.gauges.config import SerialLine
from daq.gauges.errors import LearnError
from daq.gauges.learn.evidence import Evidence, Proposal
from daq.gauges.learn.framing import framing, stripped
from daq.gauges.learn.live.ear import Asking, Ear, Heard
from daq.gauges.learn.live.person import Attendant
from daq.gauges.learn.propose import propose, rank
from daq.gauges.talk import Mode
from daq.gauges.wire import shown

SPEEDS: Final = (9600, 4800, 2400, 1200, 19200, 38400, 57600, 115200)
REQUESTS: Final = (b"\r", b"?", b"?\r", b"\x05", b"R\r", b"M\r", b"D\r")
"""Common practice, no source."""

_LISTENED: Final = (
    SerialLine("", bits=8),
    SerialLine("", parity="even"),
    SerialLine("", parity="odd"),
)
_ASKED: Final = (
    SerialLine(""), SerialLine("", bits=7, parity="even"), SerialLine("", bits=7, parity="odd"),
    SerialLine("", parity="even"), SerialLine("", parity="odd"),
)  # fmt: skip
_USUAL: Final = 2
"""So many framings are tried with requests that are but guessed."""
_CLEAR: Final = 0.9
_LIKELY: Final = 0.5
_FRAMES: Final = 20
_SHOWN: Final = 32
_NOISE: Final = 2


@dataclass(frozen=True, slots=True)
class Patience:
    """How long to wait, seconds: for a first byte, at each speed, for an answer, for a key."""

    silent_s: float = 2.5
    listen_s: float = 3.0
    answer_s: float = 0.3
    key_s: float = 20.0
    work_s: float = 6.0
    still_s: float = 1.0
    push_s: float = 60.0


@dataclass(frozen=True, slots=True)
class Understood:
    """How the gauge is to be listened to, and what its frames look like so far."""

    line: SerialLine
    mode: Mode
    asking: Asking
    proposal: Proposal


class Search:
    """Tries speeds and framings until what is heard makes sense."""

    def __init__(
        self, ear: Ear, person: Attendant, speeds: Sequence[int], patience: Patience
    ) -> None:
        """Prepare; nothing is opened yet."""
        self._ear = ear
        self._person = person
        self._speeds = speeds
        self._patience = patience

    def found(
        self, requests: Sequence[bytes], given: Asking, key: bool = False
    ) -> Understood | None:
        """Return how the gauge talks; None when nothing that was heard makes sense.

        A `given` request is the only one tried; with `key` it is known to send on its key.

        Raises:
            LearnError: the port talks by itself, but so that no file can be made of it.
            LinkError: the port cannot be used.
        """
        self._person.do(
            "work",
            "Work the contact slowly in and out, through zero, until you are told to stop.",
        )
        if key:
            return self._keyed()
        if not given.request and (found := self._streaming()) is not None:
            return found
        asked = self._asked([given.request] if given.request else requests, given)
        return asked or (None if given.request else self._keyed())

    def _streaming(self) -> Understood | None:
        silent = self._patience.silent_s
        first = self._ear.hear(SerialLine("", self._speeds[0]), silent, lambda h: bool(h.blocks))
        if not first.blocks:
            self._person.tell("Nothing comes by itself: it will be asked.")
            return None
        came: list[tuple[SerialLine, int]] = []

        def listened(line: SerialLine) -> Heard:
            heard = self._hear(line, Asking())
            if len(heard.sent) > _NOISE:
                came.append((line, len(heard.sent)))
            return heard

        found = self._best("streams", _LISTENED, listened)
        if found is None and came:
            line, most = max(came, key=lambda each: each[1])
            raise LearnError(
                f"It sends by itself ({most} bytes in {self._patience.listen_s:g} s at "
                f"{spoken(line)}), but what it sends was not understood at any usual speed. Which "
                "speed does its manual name (--baud)? Nothing is written."
            )
        return found

    def _hear(self, line: SerialLine, asking: Asking) -> Heard:
        return self._ear.hear(line, self._patience.listen_s, self._enough, asking)

    def _enough(self, heard: Heard) -> bool:
        return len(heard.pieces) >= _FRAMES or _clear(heard) is not None

    def _asked(self, requests: Sequence[bytes], given: Asking) -> Understood | None:
        most_s = self._patience.answer_s
        for like in _ASKED if given.request else _ASKED[:_USUAL]:
            for speed in self._speeds:
                line = replace(like, baud=speed)
                for request in requests:
                    asking = replace(given, request=request)
                    once = replace(asking, interval_s=most_s + 1.0)
                    answer = self._ear.hear(line, most_s, lambda heard: bool(heard.blocks), once)
                    if not answer.blocks:
                        continue
                    self._falls_silent(line, asking)
                    if (found := self._answers(line, asking)) is not None:
                        return found
        self._person.tell("It answers none of the requests.")
        return None

    def _falls_silent(self, line: SerialLine, asking: Asking) -> None:
        """Make sure that one request has one answer.  Raises LearnError."""
        patience = self._patience
        most_s = patience.answer_s + patience.silent_s
        once = replace(asking, interval_s=most_s + 1.0)
        heard = self._ear.hear(line, most_s, lambda heard: heard.goes_on(patience.answer_s), once)
        if heard.goes_on(patience.answer_s):
            asked = shown(asking.request)
            raise LearnError(
                f"After one request ({asked.hex}) it went on sending, {len(heard.sent)} bytes in "
                f"{heard.seconds:.1f} s, without being asked again: it streams. A file can say "
                "streams only of a gauge that needs no start: is there a setting on the gauge? "
                "Nothing is written."
            )

    def _answers(self, line: SerialLine, asking: Asking) -> Understood | None:
        found = self._judged(self._hear(line, asking), "asks")
        return found and (replace(found, asking=asking) if found.proposal.good > 1 else None)

    def _keyed(self) -> Understood | None:
        self._person.do(
            "key",
            "Press the gauge's key again and again, moving the contact a little each time, until "
            "you are told to stop.",
        )
        most = self._patience.key_s

        def listened(line: SerialLine) -> Heard:
            return self._ear.hear(line, most, self._enough)

        return self._best("key", _LISTENED[:1], listened)

    def _best(
        self, mode: Mode, framings: Sequence[SerialLine], hear: Callable[[SerialLine], Heard]
    ) -> Understood | None:
        """Return the first that is clearly text, else the likeliest of all that were tried."""
        for like in framings:
            tried: list[Understood] = []
            for line in self._lines(like):
                if (found := self._judged(hear(line), mode)) is None:
                    continue
                if _pointed(found.proposal):
                    return found
                tried.append(found)
            if tried:
                return max(tried, key=lambda each: rank(each.proposal))
        return None

    def _lines(self, like: SerialLine) -> Iterator[SerialLine]:
        return (replace(like, baud=speed) for speed in self._speeds)

    def _judged(self, heard: Heard, mode: Mode) -> Understood | None:
        line, pieces = understood(heard)
        if heard.blocks:
            last = shown(heard.sent[-_SHOWN:])
            self._person.tell(f"{spoken(line):>11}  {last.hex}  |{last.text}|")
        proposals = propose(Evidence(worked=pieces, paused=heard.silence_s > 0.0))
        best = next((each for each in proposals if each.score >= _LIKELY and each.good > 1), None)
        return Understood(line, mode, Asking(), best) if best else None


def understood(heard: Heard) -> tuple[SerialLine, tuple[bytes, ...]]:
    """Return the line as its bytes show it, and the pieces as they are heard with that."""
    line = heard.line
    if (line.bits, line.parity) != (8, "none"):
        return line, heard.pieces
    bits, parity = framing(heard.sent)
    pieces = tuple(stripped(piece, bits) for piece in heard.pieces)
    return replace(line, bits=bits, parity=parity), pieces


def spoken(line: SerialLine) -> str:
    """Return a line's settings in short, such as "9600 8N1"."""
    return f"{line.baud} {line.bits}{line.parity[0].upper()}{line.stop}"


def _clear(heard: Heard) -> Proposal | None:
    """Return what the bytes clearly say already: text with a decimal sign, over and over."""
    _, pieces = understood(heard)
    if sum(map(len, pieces)) < _SHOWN:
        return None
    best = next(iter(propose(Evidence(worked=pieces))), None)
    if best is None or not _pointed(best):
        return None
    return best if best.score >= _CLEAR and best.good > 2 else None


def _pointed(proposal: Proposal) -> bool:
    """Return whether it is text with a decimal sign: no other speed makes that by chance."""
    return proposal.table["shape"] == "text" and "places" not in proposal.table
