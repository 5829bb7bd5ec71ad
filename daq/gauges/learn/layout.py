"""Roles of symbols, be they nibbles or bits, from what stood at their places in many frames."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

Column = frozenset[str]
"""The symbols seen at one place; none where they mean nothing."""


@dataclass(frozen=True, slots=True)
class NumberField:
    """Where a number may stand: its places in the order sent, and that of its sign."""

    number: tuple[int, ...]
    sign: int | None


def columns(frames: Sequence[str]) -> list[Column]:
    """Return what was seen at each place."""
    return [frozenset(column) for column in zip(*frames, strict=True)]


def fields(seen: Sequence[Column], fits: frozenset[str], alone: bool) -> Iterator[NumberField]:
    """Yield where number and sign may stand so that whatever changed belongs to them.

    `fits` are the symbols of a number. With `alone` the places between may belong to the
    number although nothing changed there; without it, only those that changed do.
    """
    changed = [at for at, column in enumerate(seen) if len(column) > 1]
    signs: list[int | None] = [None]
    signs += [at for at in changed if len(seen[at]) == 2 and at in _edges(changed)]
    for sign in signs:
        rest = [at for at in changed if at != sign]
        if not rest:
            continue
        span = range(rest[0], rest[-1] + 1) if alone else rest
        if sign in span or not all(seen[at] <= fits for at in rest):
            continue
        yield NumberField(tuple(at for at in span if seen[at] <= fits), sign)


def _edges(changed: Sequence[int]) -> set[int]:
    return {changed[0], changed[-1]}


def grown(field: NumberField, seen: Sequence[Column], most: int, lowest_first: bool) -> NumberField:
    """Return the field with the zeros before its first digit, up to `most` places in all."""
    number = list(field.number)
    step = 1 if lowest_first else -1
    gap = abs(number[1] - number[0]) if len(number) > 1 else 1
    while len(number) < most:
        at = (number[-1] if lowest_first else number[0]) + step * gap
        if not 0 <= at < len(seen) or seen[at] != {"0"} or at == field.sign:
            break
        number.insert(len(number) if lowest_first else 0, at)
    return NumberField(tuple(number), field.sign)


def written(seen: Sequence[Column], field: NumberField, fixed: str, number: str) -> list[str]:
    """Return the layout as it stands in a file: `fixed` for what never changed."""
    roles = [
        (number, "") if at in field.number else ("sign", "") if at == field.sign
        else (fixed, min(column)) if column else ("any", "")
        for at, column in enumerate(seen)
    ]  # fmt: skip
    found = []
    for role, group in groupby(roles, key=lambda each: each[0]):
        symbols = [symbol for _, symbol in group]
        if role == fixed:
            found.append(f"{fixed} {''.join(symbols)}")
        else:
            found.append(role if len(symbols) == 1 else f"{role} {len(symbols)}")
    return found


def signs(seen: Sequence[Column], field: NumberField, swapped: bool = False) -> dict[str, str]:
    """Return what the sign's symbols mean: the higher is minus (common practice, no source)."""
    if field.sign is None:
        return {}
    plus, minus = sorted(seen[field.sign], reverse=swapped)
    return {plus: "+", minus: "-"}
