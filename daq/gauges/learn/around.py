"""From where the digits of a face stand in frames of text to the frames' table."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from daq.gauges.learn.cells import UNIT, Cell, cells, items, loosened
from daq.gauges.learn.cutting import Cut
from daq.gauges.learn.evidence import Table
from daq.gauges.learn.face import UNIT_WORDS, TypedFace
from daq.gauges.learn.ours import Parted, ours
from daq.gauges.learn.sealed import check
from daq.gauges.learn.signs import Signs, beside, by_word
from daq.gauges.learn.written import DigitsAt

_NUMERIC: Final = frozenset(b"0123456789.,")
_OTHER: Final = {"mm": "in", "in": "mm", "MM": "IN", "IN": "MM"}
_WEIGHT: Final = {"any": 1.0, "text": 0.1, "bytes": 0.3, "number": 0.0, "sign": 0.0, "check": 0.0}
"""What an entry of a layout costs, by its word; another one a fifth."""

_WIDEST: Final = 8
_USUAL: Final = 0.2
_ODD: Final = 1.0
"""What a sign costs that is a letter or a word."""


def tables(
    cut: Cut, spot: DigitsAt, faces: Sequence[TypedFace], paused: bool
) -> Iterator[tuple[Table, float]]:
    """Yield frame tables with the number at a spot, and what each assumes."""
    found = ours(cut, spot, faces)
    if not found or any(map(_contradicts, found)):
        return
    flowing = bool(cut.keys) or (paused and not cut.fixed)
    for parted, signs, behind in (*beside(found), (list(found), {}, False)):
        for exact in (False, True) if flowing else (True,):
            made = _made(cut, spot, parted, signs, behind, flowing, exact)
            if made is not None:
                yield made


def _made(
    cut: Cut, spot: DigitsAt, parted: list[Parted], signs: Signs, behind: bool, flowing: bool,
    exact: bool,
) -> tuple[Table, float] | None:  # fmt: skip
    fixed = not flowing
    if fixed:
        parted = _evened(parted)
        if len({(len(each.before), len(each.after)) for each in parted}) > 1:
            return None
    before = cells([each.before for each in parted], fixed, behind=False)
    after = cells([each.after for each in parted], fixed, behind=True)
    if before is None or after is None:
        return None
    number = _number_cells(parted, signs, behind)
    found = [*before, *number, *after]
    table: Table = {"shape": "fields", "layout": ()} | cut.keys
    cost = 0.0
    if signs:
        table["signs"] = signs
    elif (word := by_word(parted, found)) is not None:
        at, table["signs"] = word
        found[at] = replace(found[at], role="sign")
        cost += _ODD
    elif spot.way in ("", "unsigned") and any(e.face and e.face.number < 0 for e in parted):
        return None
    if not _with_unit(table, found, parted):
        return None
    _with_check(table, found, parted, cut)
    if not exact:
        found = [replace(c, role="blanks") if c.blank and not c.role else c for c in found]
    return _laid_out(table, loosened(found), spot, parted, cut, fixed, cost + 0.1 * exact)


def _contradicts(each: Parted) -> bool:
    """Whether a known word behind the number is another unit than the face's."""
    hit = UNIT.match(each.after)
    if hit is None or each.face is None:
        return False
    return UNIT_WORDS[hit[2].decode().lower()] != each.face.unit


def _evened(parted: Sequence[Parted]) -> list[Parted]:
    """Frames of one length: the blanks that fill a number up belong to it."""
    least = min(len(each.before) for each in parted)
    return [
        replace(each, before=each.before[:least], fill=each.before[least:] + each.fill)
        for each in parted
    ]


def _number_cells(parted: Sequence[Parted], signs: Signs, behind: bool) -> list[Cell]:
    digits = Cell(tuple(each.digits for each in parted), "number")
    fill = Cell(tuple(each.fill for each in parted))
    sign = [Cell(tuple(each.sign for each in parted), "sign")] if signs else []
    filled = [fill] if b"".join(fill.tokens) else []
    power = Cell(tuple(each.exponent for each in parted), "exponent")
    power_too = [power] if b"".join(power.tokens) else []
    if behind:
        return [digits, *power_too, *filled, *sign]
    return [*sign, *filled, digits, *power_too]


def _with_unit(table: Table, found: list[Cell], parted: Sequence[Parted]) -> bool:
    """Say the unit: by a word that is known, else as the face has it.  False when they differ."""
    faces = [(at, each.face) for at, each in enumerate(parted) if each.face is not None]
    place = next(at for at, cell in enumerate(found) if cell.role == "number")
    for at in sorted(range(len(found)), key=lambda at: abs(at - place - 0.4)):
        cell = found[at]
        words = {token.decode("latin-1") for token in cell.tokens}
        if cell.role or not all(word.lower() in UNIT_WORDS for word in words):
            continue
        if any(UNIT_WORDS[cell.tokens[nth].decode().lower()] != face.unit for nth, face in faces):
            return False
        words |= {_OTHER[word] for word in words if word in _OTHER}
        table["units"] = {word: UNIT_WORDS[word.lower()] for word in sorted(words)}
        found[at] = replace(cell, role="unit")
        return True
    units = {face.unit for _, face in faces}
    if len(units) > 1:
        return False
    table["unit"] = units.pop()
    return True


def _with_check(table: Table, found: list[Cell], parted: Sequence[Parted], cut: Cut) -> None:
    """Say the check value, if one of a known kind ends the frame or begins it."""
    frames = [each.frame for each in parted]
    last = found[-1]
    front = next((at for at in (0, 1) if found[at : at + 1] and found[at].always is None), None)
    for at, cell in ((len(found) - 1, last), (front, found[front] if front is not None else last)):
        if at is None or cell.role or cell.always is not None or cell.width is None:
            continue
        if not 1 <= cell.width <= _WIDEST:
            continue
        ahead = sum(map(len, (each.tokens[0] for each in found[:at])))
        keys = check(frames, -cell.width if at == len(found) - 1 else ahead, cell.width)
        if keys is not None:
            table["check"] = keys
            found[at] = replace(cell, role="check")
            return


def _laid_out(
    table: Table, found: list[Cell], spot: DigitsAt, parted: Sequence[Parted], cut: Cut,
    fixed: bool, cost: float,
) -> tuple[Table, float] | None:  # fmt: skip
    place = next(at for at, cell in enumerate(found) if cell.role == "number")
    if fixed and place and found[place - 1].blank and not found[place - 1].role:
        filled = zip(found[place - 1].tokens, found[place].tokens, strict=True)
        found[place - 1 : place + 1] = [Cell(tuple(a + b for a, b in filled), "number")]
        place -= 1
    number = _number(found, place, spot, fixed)
    end = cut.keys.get("terminator", "").encode("latin-1")
    layout = items(found, fixed, frozenset(end[:1]))
    if number is None or layout is None:
        return None
    table["layout"] = [number if item == "number" else item for item in layout]
    digits = found[place].tokens
    if any(b"," in each for each in digits):
        table["decimal"] = ","
    face = next(each.face for each in parted if each.face is not None)
    if spot.scale is not None:
        table |= spot.scale.keys
    elif not any(set(b".,") & set(each) for each in digits) or "exponent" in layout:
        table["places"] = face.places
    if not table.get("terminator") and not fixed:
        table["apart"] = "pause"
    cost += spot.cost + cut.cost + sum(_WEIGHT.get(item.split()[0], _USUAL) for item in layout)
    return table, cost


def _number(found: Sequence[Cell], place: int, spot: DigitsAt, fixed: bool) -> str | None:
    """Return how the layout says the number: free, or with its width where digits may follow."""
    cell = found[place]
    if spot.way:
        return f"hex {cell.width} {spot.way}".removesuffix(" unsigned")
    chars = frozenset(byte for each in found[place + 1 : place + 2] for byte in each.chars)
    follows = found[place + 1].role if place + 1 < len(found) else ""
    meets = bool(chars & _NUMERIC) or (follows in ("any", "check"))
    if not (fixed or meets or spot.width or spot.decimals >= 0):
        return "number"
    if cell.width is None:
        return None
    digits = cell.tokens[0].replace(b",", b".")
    whole, point, after = digits.partition(b".")
    if point and not any(b" " in token for token in cell.tokens):
        return f"number {len(whole)}.{len(after)}"
    return f"number {cell.width}"
