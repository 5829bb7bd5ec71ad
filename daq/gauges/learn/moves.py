"""Whether the digits taken for a number move as a hand moves it, and others beside it do not."""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import gcd
from typing import Final

from daq.gauges.frames import Indication
from daq.gauges.learn.evidence import Evidence, Table
from daq.gauges.learn.extra import MOST, Extra
from daq.gauges.learn.follows import Pair, follows
from daq.gauges.learn.judge import decoded, smoothness

_FLICKER: Final = 4
"""With the hand off, a number stays within so many steps."""
_RUN: Final = 4
_FEW: Final = 12
_ENOUGH: Final = 20
_WINDOW: Final = 4
"""Last digits that all lie within so many of ten are not moved by a hand, but flicker."""
_JUMP: Final = 0.2
_HEX: Final = frozenset(b"0123456789abcdefABCDEF")


def seen(table: Table, heard: Evidence, extra: Extra | None) -> bool | None:
    """Return whether the number's last digit was seen to move with the hand.

    None when it cannot be told from what was heard; False when the number holds digits
    that do not, or what is `extra` may be digits of it.
    """
    worked, rest, pushed = _in_one_unit(
        [decoded(table, pieces) or [] for pieces in (heard.worked, heard.rest, heard.pushed)]
    )
    if extra and len({each.text for each in worked}) == 1:
        return False
    number = _number(table, [*worked, *rest, *pushed], worked, rest)
    if number is False or extra is None or not extra.beside:
        return number
    beside = _beside(extra, [*worked, *rest, *pushed], rest)
    return number and beside if beside is not True else number


def idle(table: Table, heard: Evidence) -> bool:
    """Return whether the number's last digit is the same always."""
    counts = _counts(decoded(table, heard.pieces) or [])
    return _step(counts) % 10 == 0


def _in_one_unit(parts: Sequence[Sequence[Indication]]) -> list[list[Indication]]:
    units = Counter(each.unit for part in parts for each in part)
    most = units.most_common(1)[0][0] if units else "mm"
    return [[each for each in part if each.unit == most] for part in parts]


def _step(counts: Sequence[int]) -> int:
    """Return what all numbers are apart by, or 1 when there are too few of them."""
    kinds = sorted(set(counts))
    return gcd(*(b - a for a, b in pairwise(kinds))) if len(kinds) > _FEW else 1


def _number(
    table: Table,
    found: Sequence[Indication],
    worked: Sequence[Indication],
    rest: Sequence[Indication],
) -> bool | None:
    counts = _counts(found)
    step = _step(counts)
    if _step([abs(count) for count in counts]) > step:  # the same digit behind plus and minus
        return False
    at_rest = counts[len(worked) : len(worked) + len(rest)]
    if _runs([count // step for count in at_rest]) or _jumps(table, worked):
        return False
    base = 16 if table["shape"] == "bits" else 10
    lowest = min(counts, default=0)
    if step > 1:
        counts = [(count - lowest) // step for count in counts]
    digits = [_digits(count, base) for count in counts]
    if _flickers([each[-1] for each in digits[: len(worked)]], base):
        return False
    return _last_digit(counts, digits)


def _last_digit(counts: Sequence[int], digits: Sequence[tuple[int, ...]]) -> bool | None:
    """Return whether the last digit is free; False when the last, or some, follow from the rest."""
    known: bool | None = None
    for size in range(1, MOST + 1):
        for base in (10, 16):
            pairs = [
                Pair(count < 0, each[:-size], _worth(each[-size:], base))
                for count, each in zip(counts, digits, strict=True)
            ]
            one = follows(pairs)
            if one:
                return False
            if size == 1 and one is False:
                known = True
    return known


def _beside(extra: Extra, found: Sequence[Indication], rest: Sequence[Indication]) -> bool | None:
    """Return whether what is beside the number is none of its digits; None when it is not known."""
    at_rest: dict[str, set[bytes]] = {}
    for each in rest:
        at_rest.setdefault(each.text, set()).add(extra.of(each.raw))
    if any(len(each) >= _RUN for each in at_rest.values()):
        return True
    known: bool | None = None
    for valued in _readings([extra.of(each.raw) for each in found]):
        pairs = [
            Pair((len(each.raw), each.text[0] == "-"), _others(extra, each.raw), part)
            for each, part in zip(found, valued, strict=True)
        ]
        known = follows(pairs)
        if known:
            return True
    return known


def _readings(parts: Sequence[bytes]) -> Iterator[list[int]]:
    """Yield what the parts may be worth."""
    if _HEX.issuperset(b"".join(parts)) and all(parts):
        yield [int(part, 16) for part in parts]
        if all(part.isdigit() for part in parts):
            yield [int(part) for part in parts]
    else:
        yield [int.from_bytes(part) for part in parts]


def _others(extra: Extra, raw: bytes) -> tuple[int, ...]:
    beyond = extra.at(len(raw))
    return tuple(byte for at, byte in enumerate(raw) if at not in beyond)


def _counts(found: Sequence[Indication]) -> list[int]:
    """Return the numbers as whole ones, in units of the last place there is."""
    places = [len(each.text.strip("+- ").replace(",", ".").partition(".")[2]) for each in found]
    most = 10 ** max(places, default=0)
    return [round(each.value * most) for each in found]


def _digits(count: int, base: int) -> tuple[int, ...]:
    count, found = abs(count), []
    for _ in range(12):
        count, digit = divmod(count, base)
        found.append(digit)
    return tuple(reversed(found))


def _worth(digits: Sequence[int], base: int) -> int:
    value = 0
    for digit in digits:
        value = value * base + digit
    return value


def _runs(counts: Sequence[int]) -> bool:
    """Return whether a number goes on although nothing moves it."""
    steps = [b - a for a, b in pairwise(counts)]
    if not steps:
        return False
    on = len(steps) >= _RUN and (min(steps) > 0 or max(steps) < 0)
    return on or max(counts) - min(counts) > _FLICKER


def _flickers(last: Sequence[int], base: int) -> bool:
    kinds = set(last)
    if len(last) < _ENOUGH or base != 10 or len(kinds) < 2:
        return False
    return any(all((one - first) % base < _WINDOW for one in kinds) for first in kinds)


def _jumps(table: Table, worked: Sequence[Indication]) -> bool:
    """Return whether a number goes on evenly but for its first digits."""
    if table["shape"] != "text":
        return False
    counts = [abs(count) for count in _counts(worked)]
    smooth = smoothness(_counts(worked))
    width = len(str(max(counts, default=0)))
    for kept in range(max(1, width - MOST), width):
        lower = [count % 10**kept for count in counts]
        if len(set(lower)) > _FEW and smoothness(lower) > smooth + _JUMP:
            return True
    return False
