"""Which check value a part of a frame is, if it is one that is known."""

from collections.abc import Iterator, Sequence
from typing import Any, Final, get_args

from daq.gauges.frames.shared.checked import CRCS, KINDS, Check, Sent

_UNLIKE: Final = 6
"""A value right by chance in so many unlike frames is no chance."""
_LOOKED_AT: Final = 40
_HOLDING: Final = 0.97
_OWN: Final = ("crc-8", "crc-16")
_STARTS: Final = range(4)
_STOPS: Final = range(4)


def check(frames: Sequence[bytes], at: int, width: int) -> dict[str, Any] | None:
    """Return the keys of the check value of `width` bytes at `at` in all frames.

    `at` counts from the front, or below 0 from the back; so does what it is made over. None
    when it is none that is known, or when too few frames tell.
    """
    unlike = list(dict.fromkeys(frames))[-_LOOKED_AT:]
    begin = [at + len(frame) if at < 0 else at for frame in unlike]
    parts = {frame[a : a + width] for frame, a in zip(unlike, begin, strict=True)}
    if len(parts) < _UNLIKE:
        return None
    for made in _made(at, width):
        if made.size != width:
            continue
        agreed = 0
        for nth, frame in enumerate(unlike, 1):
            agreed += made.holds(frame)
            if agreed < _HOLDING * nth - 1:
                break
        else:
            if agreed >= _HOLDING * len(unlike) and agreed >= _UNLIKE:
                return _keys(made, at)
    return None


def _made(at: int, width: int) -> Iterator[Check]:
    """Yield the check values there may be, the usual first."""
    kinds = [kind for kind in KINDS if kind not in _OWN]
    kinds.sort(key=lambda kind: kind in CRCS)
    for kind in kinds:
        for sent in _sent(width):
            if kind in CRCS and sent == "character":
                continue
            for over in _overs(at, width):
                yield Check(kind=kind, sent=sent, over=over, at=at)


def _sent(width: int) -> tuple[Sent, ...]:
    ways: tuple[Sent, ...] = get_args(Sent)
    return ways if width > 1 else ("high-first", "character")


def _overs(at: int, width: int) -> Iterator[tuple[int, ...]]:
    if at >= 0:
        for start in range(at + width, at + width + 3):
            yield (start, 2**31)
            yield (start, -1)
        return
    for start in _STARTS:
        yield (start,)
        for stop in range(1, 4):
            yield (start, at - stop)


def _keys(made: Check, at: int) -> dict[str, Any]:
    keys: dict[str, Any] = {"kind": made.kind}
    if made.sent != "hex":
        keys["sent"] = made.sent
    if made.over != (0,):
        keys["over"] = list(made.over)
    return keys
