"""Where frames of text say the sign of their number: beside it, or by a letter or a word."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from daq.gauges.learn.cells import Cell
from daq.gauges.learn.ours import Parted

_FRONT: Final = re.compile(rb"([+-]?)( *)\Z")
_BEHIND: Final = re.compile(rb"( *)([+-])")
_MEANING: Final = {"+": "+", "-": "-"}

Signs = dict[str, str]


def beside(ours: Sequence[Parted]) -> Iterator[tuple[list[Parted], Signs, bool]]:
    """Yield the frames with a sign beside the digits taken out, and what it may be.

    The last tells that it stands behind them. A minus in front of digits is one, whether it
    was seen or not.
    """
    own = ours[0].spot.scale is not None and "offset" in ours[0].spot.scale.keys
    if ours[0].spot.way in ("signed", "offset"):
        yield list(ours), {}, False
        return
    negative = any(each.face is not None and each.face.number < 0 for each in ours)
    for behind in (False, True):
        taken = [(_behind if behind else _front)(each) for each in ours]
        seen = {each.sign for each in taken}
        told = [each for each in taken if each.face is not None and each.face.number]
        if not own and any((each.sign == b"-") != _is_negative(each) for each in told):
            continue
        if behind and not seen & {b"+", b"-"}:
            continue
        if b"" not in seen:
            yield taken, dict(_MEANING), behind
        elif b"+" in seen:
            yield taken, {"": "+"} | _MEANING, behind
        else:
            yield _plus_is_less(taken, behind, negative)
        return


def by_word(ours: Sequence[Parted], found: Sequence[Cell]) -> tuple[int, Signs] | None:
    """Return which cell says the sign, and by what; None when none does."""
    told = [at for at, each in enumerate(ours) if each.face is not None and each.face.number]
    for at, cell in enumerate(found):
        if cell.role:
            continue
        minus = {cell.tokens[nth] for nth in told if _is_negative(ours[nth])}
        plus = {cell.tokens[nth] for nth in told if not _is_negative(ours[nth])}
        if len(minus) == len(plus) == 1 and minus != plus and set(cell.tokens) <= minus | plus:
            return at, {plus.pop().decode("latin-1"): "+", minus.pop().decode("latin-1"): "-"}
    return None


def _is_negative(each: Parted) -> bool:
    return each.face is not None and each.face.number < 0


def _plus_is_less(
    taken: list[Parted], behind: bool, negative: bool
) -> tuple[list[Parted], Signs, bool]:
    """A plus that is not sent: a blank in the minus's place, or nothing."""
    bare = [each for each in taken if not each.sign]
    signed = [each for each in taken if each.sign]
    if behind:
        if all(each.after.startswith(b" ") for each in bare) and not any(e.fill for e in signed):
            blank = [_blank_behind(each) for each in taken]
            return blank, {" ": "+", "-": "-"}, True
        return taken, {"": "+", "-": "-"}, True
    if negative and any(each.fill for each in signed) and all(each.fill for each in bare):
        blank = [e if e.sign else replace(e, sign=b" ", fill=e.fill[1:]) for e in taken]
        return blank, {" ": "+", "-": "-"}, False
    moved = [e if e.sign else replace(e, before=e.before + e.fill, fill=b"") for e in taken]
    return moved, {"": "+", "-": "-"}, False


def _blank_behind(each: Parted) -> Parted:
    return each if each.sign else replace(each, sign=b" ", after=each.after[1:])


def _front(each: Parted) -> Parted:
    hit = _FRONT.search(each.before)
    assert hit is not None  # it may be of no characters
    return replace(each, before=each.before[: hit.start()], sign=hit[1], fill=hit[2])


def _behind(each: Parted) -> Parted:
    hit = _BEHIND.match(each.after)
    if hit is None:
        return each
    return replace(each, sign=hit[2], fill=hit[1], after=each.after[hit.end() :])
