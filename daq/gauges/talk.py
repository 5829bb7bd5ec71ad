"""What a gauge's file says of when it sends: by itself, when asked, or when its key is pressed."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Final, Literal

from daq.gauges.frames.shared.checked import Check
from daq.settings import Range, Seconds, quoted

Mode = Literal["streams", "asks", "key"]

_SHORTEST_STALE_S: Final = 1.0
_TIMEOUT_S: Final = 0.5
_UNANSWERED: Final = 3
_PATIENCE_S: Final = 5.0
_TIMEOUTS_OUT_OF_STEP: Final = 6
_LONGEST_REQUEST: Final = 64

_KEYS: Final[Mapping[Mode, tuple[str, ...]]] = {
    "streams": ("interval",),
    "asks": (
        *("interval", "request", "request_hex", "timeout", "unanswered"),
        *("steps", "echo", "check"),
    ),
    "key": ("presses",),
}
_ESCAPE: Final = re.compile(r"\\(x[0-9A-Fa-f]{2}|.?)", re.DOTALL)
_ESCAPES: Final = {"r": "\r", "n": "\n", "t": "\t", "0": "\0", "\\": "\\"}


@dataclass(frozen=True, slots=True)
class Talk:
    r"""When the gauge sends.  Times in seconds.

    `streams`: of its own accord, a frame every `interval`. `asks`: it is sent the
    `request` (text, in which \r, \n, \t, \0, \\ and \xHH stand for those bytes, or
    `request_hex`, bytes such as "02 52 0D") every `interval`; an answer that has not come
    after `timeout` is missing, and after `unanswered` missing ones in a row the gauge
    counts as silent. Before each request the `steps` are sent, texts as it is one, each with
    the time of a `step` after it; `check` is the check value that the request, and each of them,
    ends with; with `echo` the gauge sends what it was sent before its answer. `key`: when the
    key on the gauge is pressed; so many `presses` make one reading. A gauge that must be told to
    begin is sent the texts of `start` when its port is opened, and when it has fallen silent. A
    silence as long as `pause` parts two frames: nothing is put together across it.
    """

    interval: Annotated[Seconds, Range(above=0.0, hi=60.0)] | None = None
    mode: Mode = "streams"
    request: str | None = None
    request_hex: str | None = None
    timeout: Annotated[Seconds, Range(above=0.0, hi=60.0)] | None = None
    unanswered: Annotated[int, Range(1, 100)] | None = None
    pause: Annotated[Seconds, Range(lo=0.01, hi=1.0)] = 0.2
    presses: Annotated[int, Range(1, 9)] | None = None
    start: tuple[str, ...] = ()
    steps: tuple[str, ...] | None = None
    step: Annotated[Seconds, Range(lo=0.01, hi=5.0)] = 0.1
    echo: bool | None = None
    check: Check | None = None

    def __post_init__(self) -> None:
        """Refuse keys that do not belong together.

        Raises:
            ValueError: in plain words, what was found and what is allowed.
        """
        own = _KEYS[self.mode]
        for key in (*_KEYS["asks"], *_KEYS["key"]):
            if key not in own and getattr(self, key) is not None:
                modes = " or ".join(f'"{mode}"' for mode, keys in _KEYS.items() if key in keys)
                raise ValueError(
                    f'found {key} with mode = "{self.mode}"; allowed: with mode = {modes}'
                )
        if "interval" in own and self.interval is None:
            raise ValueError(
                f'found no interval with mode = "{self.mode}"; '
                'allowed: the time from one frame to the next, such as interval = "100 ms"'
            )
        if self.mode == "asks":
            self._check_request()
        for sent in (*self.started, *self.stepped):
            _check_length(sent)

    def _check_request(self) -> None:
        if (self.request is None) == (self.request_hex is None):
            found = "no request" if self.request is None else "request and request_hex"
            raise ValueError(
                rf"found {found}; allowed: either request, such as 'R\r', "
                "or request_hex, such as '52 0D'"
            )
        _check_length(self.asked)
        if self.stale_s is not None and self.answer_s > self.stale_s:
            raise ValueError(
                f"found timeout {self.answer_s:g} s{' with its steps' if self.steps else ''}; "
                f"allowed: at most {self.stale_s:g} s, "
                "after which its value is too old to be shown (3 intervals, but at least 1 s)"
            )

    @property
    def asked(self) -> bytes:
        """The bytes of the request; none unless the mode is "asks"."""
        if self.request_hex is not None:
            try:
                return self._sealed(bytes.fromhex(self.request_hex))
            except ValueError:
                raise ValueError(
                    f"found request_hex {quoted(self.request_hex)}; "
                    "allowed: pairs of hexadecimal digits, such as '02 52 0D'"
                ) from None
        return self._sealed(_unescaped(self.request or ""))

    @property
    def started(self) -> tuple[bytes, ...]:
        """The bytes of each start-up command."""
        return tuple(_unescaped(text) for text in self.start)

    @property
    def stepped(self) -> tuple[bytes, ...]:
        """The bytes of each step before a request."""
        return tuple(self._sealed(_unescaped(text)) for text in self.steps or ())

    def _sealed(self, sent: bytes) -> bytes:
        return sent + self.check.written(sent) if self.check and sent else sent

    @property
    def answer_s(self) -> float:
        """How long an answer is awaited from the first of its steps on, seconds."""
        return self.timeout_s + len(self.steps or ()) * self.step

    @property
    def timeout_s(self) -> float:
        """How long an answer is awaited, seconds."""
        return _TIMEOUT_S if self.timeout is None else self.timeout

    @property
    def most_missing(self) -> int:
        """How many answers in a row may be missing before the gauge counts as silent."""
        return _UNANSWERED if self.unanswered is None else self.unanswered

    @property
    def presses_a_reading(self) -> int | None:
        """How many presses of its key make one reading; None unless the mode is "key"."""
        return (self.presses or 1) if self.mode == "key" else None

    @property
    def stale_s(self) -> float | None:
        """How long a value may be shown as live, seconds; None: it never is, its age is told."""
        if self.interval is None:
            return None
        return max(_SHORTEST_STALE_S, 3.0 * self.interval)

    @property
    def patience_s(self) -> float:
        """How long a gauge that is asked may take to fall into step again, seconds."""
        return max(_PATIENCE_S, self.stale_s or 0.0, _TIMEOUTS_OUT_OF_STEP * self.answer_s)


def _check_length(sent: bytes) -> None:
    if not 1 <= len(sent) <= _LONGEST_REQUEST:
        raise ValueError(f"found a request of {len(sent)} bytes; allowed: 1 to {_LONGEST_REQUEST}")


def _unescaped(text: str) -> bytes:
    """Return the bytes a request's text stands for.  Raises ValueError for what stands for none."""

    def one(hit: re.Match[str]) -> str:
        name = hit[1]
        if len(name) == 3:
            return chr(int(name[1:], 16))
        if name not in _ESCAPES:
            raise ValueError(
                rf"found {hit[0]!r} in request; allowed: \r, \n, \t, \0, \\ and \xHH "
                "with two hexadecimal digits"
            )
        return _ESCAPES[name]

    try:
        return _ESCAPE.sub(one, text).encode("latin-1")
    except UnicodeEncodeError as error:
        odd = text[error.start : error.start + 1]
        raise ValueError(
            rf"found {odd!r} in request; allowed: characters of one byte, and \xHH"
        ) from None
