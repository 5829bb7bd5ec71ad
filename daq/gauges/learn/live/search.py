"""Finding a gauge's speed, framing and talk by trying the usual ones.

Characters settle it: no other speed makes lines with numbers in them. Where bytes come that are
no characters, each speed at which some came may still be the one; the faces tell later.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from daq.gauges.config import SerialLine
from daq.gauges.learn.cutting import PRINTABLE
from daq.gauges.learn.framing import framing, stripped
from daq.gauges.learn.live.ear import Asking, Ear, Heard
from daq.gauges.learn.live.person import Attendant, nothing
from daq.gauges.learn.speeds import left
from daq.gauges.talk import Mode
from daq.gauges.wire import shown
from daq.words import said

SPEEDS: Final = (9600, 19200, 4800, 38400, 2400, 115200, 57600, 1200, 600, 300)
REQUESTS: Final = (b"\r", b"?", b"?\r", b"\x05", b"R\r", b"M\r", b"D\r")
"""Common practice, no source."""

_PLAIN: Final = SerialLine("")
_PARITIES: Final = (SerialLine("", parity="even"), SerialLine("", parity="odd"))
"""7 bits with a parity are seen in what is heard of 8 without; 8 bits with one are not."""
_ASKED: Final = (
    SerialLine(""), SerialLine("", bits=7, parity="even"), SerialLine("", bits=7, parity="odd"),
    SerialLine("", parity="even"), SerialLine("", parity="odd"),
)  # fmt: skip
_USUAL: Final = 2
"""So many framings are tried with requests that are but guessed."""
_GUESSED: Final = 6
"""So many speeds, too."""
_SHOWN: Final = 24
_NOISE: Final = 2
_ENOUGH: Final = 8
_CLEAR: Final = 20
_ANSWERS: Final = 3
_PRESSES: Final = 4
_PRESSED_AT: Final = 4
"""At so few speeds a key is pressed, mostly."""
_FIRST_MOST_S: Final = 6.0


@dataclass(frozen=True, slots=True)
class Patience:
    """How long to wait, seconds: for a first byte, at each speed, for an answer, for a key.

    `still_s`: how much is heard of a number at rest.
    """

    silent_s: float = 2.5
    listen_s: float = 1.2
    answer_s: float = 0.3
    key_s: float = 20.0
    work_s: float = 5.0
    still_s: float = 1.0


@dataclass(frozen=True, slots=True)
class Understood:
    """One way in which the gauge may talk, and what was heard that way.

    `clear`: it is characters, and no other way can be.
    """

    line: SerialLine
    mode: Mode
    asking: Asking
    heard: Heard
    clear: bool = False


class Search:
    """Tries speeds and framings until characters come, or all are through."""

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
    ) -> list[Understood]:
        """Return how the gauge may talk, the likeliest first; none when nothing came.

        A `given` request is the only one tried; with `key` it is known to send on its key.
        Raises LinkError: the port cannot be used.
        """
        if key:
            return self._keyed()
        if not given.request and (found := self._streaming()) is not None:
            return found
        return self._asked([given.request] if given.request else requests, given) or (
            [] if given.request else self._keyed()
        )

    def _streaming(self) -> list[Understood] | None:
        """Return what may stream; None when nothing comes by itself."""
        silent = self._patience.silent_s
        first = self._ear.hear(SerialLine("", self._speeds[0]), silent, lambda h: bool(h.blocks))
        if not first.blocks:
            self._person.tell(said("learn-silent"))
            return None
        return self._tried(
            "streams",
            lambda line: self._ear.hear(line, self._most_s(line), self._is_enough),
        )

    def _is_enough(self, heard: Heard) -> bool:
        return (
            self._person.skipped()
            or len(heard.pieces) >= _CLEAR
            or (len(heard.pieces) >= _ENOUGH and is_clear(understood(heard)))
        )

    def _most_s(self, line: SerialLine) -> float:
        """Slow lines are heard for longer: a frame takes its time."""
        return min(_FIRST_MOST_S, self._patience.listen_s * max(1.0, 2400.0 / line.baud))

    def _tried(self, mode: Mode, hear: Callable[[SerialLine], Heard]) -> list[Understood]:
        """Return the first that is characters, else all at which something may be meant."""
        heard: dict[int, bytes] = {}
        tried: dict[int, Understood] = {}
        while (speed := self._untried(heard)) is not None:
            line = replace(_PLAIN, baud=speed)
            at_it = hear(line)
            heard[speed] = at_it.sent
            of = len(heard) + len(set(left(heard, self._speeds)) - set(heard))
            found = self._judged(at_it, mode, Asking(), len(heard), of)
            if found is not None and found.clear:
                return [found]
            if found is not None:
                tried[speed] = found
        maybe = [tried[speed] for speed in left(heard, self._speeds) if speed in tried]
        if mode == "key":
            return maybe
        return maybe + [way for each in maybe for way in self._with_parity(each, hear)]

    def _untried(self, heard: Mapping[int, bytes]) -> int | None:
        return next((each for each in left(heard, self._speeds) if each not in heard), None)

    def _with_parity(
        self, found: Understood, hear: Callable[[SerialLine], Heard]
    ) -> Iterator[Understood]:
        if found.line.bits == 8:
            for like in _PARITIES:
                heard = hear(replace(like, baud=found.line.baud))
                if len(heard.sent) > _NOISE:
                    yield replace(found, line=heard.line, heard=heard)

    def _judged(
        self, heard: Heard, mode: Mode, asking: Asking, nth: int = 1, of: int = 1
    ) -> Understood | None:
        heard = understood(heard)
        clear = is_clear(heard)
        if of > 1:
            last = shown(heard.sent[-_SHOWN:])
            self._person.tell(
                said("learn-tried", nth=nth, of=of, line=spoken(heard.line), text=last.text)
            )
        if len(heard.sent) <= _NOISE:
            return None
        return Understood(heard.line, mode, asking, heard, clear)

    def _asked(self, requests: Sequence[bytes], given: Asking) -> list[Understood]:
        ways = list(_asked_ways(self._speeds, requests, bool(given.request)))
        tried: list[Understood] = []
        for nth, (line, request) in enumerate(ways, 1):
            most_s = self._patience.answer_s + 60.0 / line.baud
            asking = replace(given, request=request, interval_s=_FIRST_MOST_S)
            answer = self._ear.hear(line, most_s, lambda heard: bool(heard.blocks), asking)
            if not answer.blocks:
                continue
            found = self._answering(line, replace(given, request=request), nth, len(ways))
            if found is not None and (found.clear or len(found.heard.pieces) >= _ANSWERS):
                return [found]
            tried += [found] if found is not None else []
        if not tried:
            self._person.tell(said("learn-no-answer"))
        return tried

    def _answering(self, line: SerialLine, asking: Asking, nth: int, of: int) -> Understood | None:
        """Return what answers a request, each time once; or what it has set going."""
        patience = self._patience
        most_s = patience.answer_s + patience.silent_s
        once = replace(asking, interval_s=most_s + 1.0)
        heard = self._ear.hear(line, most_s, lambda heard: heard.goes_on(patience.answer_s), once)
        if heard.goes_on(patience.answer_s):
            started = Asking(start=asking.request)
            on = self._ear.hear(line, self._most_s(line), self._is_enough, started)
            return self._judged(on, "streams", started, nth, of)
        often = replace(asking, interval_s=max(asking.interval_s, 1.5 * heard.seconds + 0.05))
        many = self._ear.hear(line, self._most_s(line), self._is_enough, often)
        many = replace(many, blocks=(*heard.blocks, *many.blocks))
        sent = asking.request
        often = replace(often, echo=len(sent) > 1 and heard.sent.startswith(sent))
        return self._judged(replace(many, echo=often.echoed), "asks", often, nth, of)

    def _keyed(self) -> list[Understood]:
        self._person.asked("key", said("learn-press-key"), nothing)
        most = self._patience.key_s
        return self._tried(
            "key", lambda line: self._ear.hear(line, most / _PRESSED_AT, self._is_pressed)
        )

    def _is_pressed(self, heard: Heard) -> bool:
        clear = is_clear(understood(heard))
        return self._person.skipped() or len(heard.pieces) >= _PRESSES - clear


def _asked_ways(
    speeds: Sequence[int], requests: Sequence[bytes], given: bool
) -> Iterator[tuple[SerialLine, bytes]]:
    for like in _ASKED if given else _ASKED[:_USUAL]:
        for speed in speeds if given else speeds[:_GUESSED]:
            for request in requests:
                yield replace(like, baud=speed), request


def understood(heard: Heard) -> Heard:
    """Return what was heard with the line's settings as its bytes show them."""
    line = heard.line
    if (line.bits, line.parity) != (8, "none"):
        return heard
    bits, parity, stop = framing(heard.sent)
    blocks = tuple((at, stripped(block, bits)) for at, block in heard.blocks)
    told = replace(line, bits=bits, parity=parity, stop=stop)
    return replace(heard, line=told, blocks=blocks)


def spoken(line: SerialLine) -> str:
    """Return a line's settings in short, such as "9600 8N1"."""
    return f"{line.baud} {line.bits}{line.parity[0].upper()}{line.stop}"


_DIGITS: Final = frozenset(b"0123456789")
_LEAST: Final = 12
_FILLED: Final = 0.25


def is_clear(heard: Heard) -> bool:
    """Return whether what came is characters with numbers among them."""
    sent = heard.sent
    if len(sent) < _LEAST or not PRINTABLE.fullmatch(sent):
        return False
    seen = [byte for byte in sent if byte > 0x20]
    return sum(byte in _DIGITS for byte in seen) >= _FILLED * len(seen) > 0
