"""From where a count or a float stands in frames of bytes to the frames' table."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby
from typing import Final

from daq.gauges.learn.counted import CountAt, bits, fields
from daq.gauges.learn.cutting import Cut
from daq.gauges.learn.evidence import Table
from daq.gauges.learn.face import TypedFace
from daq.gauges.learn.sealed import check

_SEALS: Final = (2, 1)
_LOOSE: Final = 0.1
"""What a bit that is not looked at costs."""


def tables(cut: Cut, faces: Sequence[TypedFace], travel: Fraction) -> Iterator[tuple[Table, float]]:
    """Yield frame tables of counts and floats; `travel` of the contact in the faces' unit."""
    for field in fields(cut, faces, travel):
        whole = field.at % 8 == field.width % 8 == 0
        turned = field.order == "low-first" and field.way != "float"
        rows = [bits(frame, turned) for frame in cut.frames]
        told = [[bits(frame, turned) for frame in group if len(frame) == len(cut.frames[0])]
                for group in cut.held]  # fmt: skip
        seal = _seal(cut, field)
        for sign in _signs(told, faces, field, seal):
            table = _table(cut, rows, field, sign, seal, faces, whole and sign is None)
            loose = sum(len(set(column)) > 1 for column in zip(*rows, strict=True))
            own = field.width + 8 * (seal[1] if seal else 0) + (sign is not None)
            yield table, field.cost + cut.cost + _LOOSE * max(0, loose - own)


def _seal(cut: Cut, field: CountAt) -> tuple[int, int, Table] | None:
    """Return where a known check value stands, how long it is, and its keys."""
    length = len(cut.frames[0])
    taken = set(range(field.at // 8, (field.at + field.width + 7) // 8))
    for size in _SEALS:
        for at in (length - size, length - size - 1, length - size - 2):
            if at > 0 and not taken & set(range(at, at + size)):
                if len({frame[at : at + size] for frame in cut.frames}) < 2:
                    continue
                if (keys := check(cut.frames, at - length, size)) is not None:
                    return at, size, keys
    return None


def _signs(
    told: Sequence[Sequence[str]], faces: Sequence[TypedFace], field: CountAt,
    seal: tuple[int, int, Table] | None,
) -> Iterator[int | None]:  # fmt: skip
    """Yield which bit outside the number may be its sign, 1 for minus."""
    own = field.way != "unsigned" or "offset" in field.scale.keys
    if own or not any(face.number < 0 for face in faces):
        yield None
        return
    taken = set(range(field.at, field.at + field.width))
    if seal is not None:
        taken |= set(range(8 * seal[0], 8 * (seal[0] + seal[1])))
    for at in range(len(told[0][0])):
        if at not in taken and all(
            {row[at] for row in group} == {"1" if face.number < 0 else "0"}
            for group, face in zip(told, faces, strict=True)
            if face.number
        ):
            yield at


def _table(
    cut: Cut, rows: Sequence[str], field: CountAt, sign: int | None,
    seal: tuple[int, int, Table] | None, faces: Sequence[TypedFace], whole: bool,
) -> Table:  # fmt: skip
    turned = field.order == "low-first" and field.way != "float" and not whole
    if turned or field.way == "float" or field.order != "low-first":
        columns = [frozenset(column) for column in zip(*rows, strict=True)]
    else:  # the bytes of a whole low-first number need not be reversed
        plain = [bits(frame, low_first=False) for frame in cut.frames]
        columns = [frozenset(column) for column in zip(*plain, strict=True)]
    marks = ["fixed" if len(column) == 1 else "any" for column in columns]
    marks[field.at : field.at + field.width] = ["number"] * field.width
    if sign is not None:
        marks[sign] = "sign"
    if seal is not None:
        marks[8 * seal[0] : 8 * (seal[0] + seal[1])] = ["check"] * (8 * seal[1])
    table: Table = {"shape": "fields", "layout": _layout(columns, marks, field, turned)}
    if turned:
        table["order"] = "low-first"
    table |= field.scale.keys | {"unit": faces[0].unit} | cut.keys
    if seal is not None:
        table["check"] = seal[2]
    return table


def _layout(
    columns: Sequence[frozenset[str]], marks: Sequence[str], field: CountAt, turned: bool
) -> list[str]:
    layout: list[str] = []
    at = 0
    for mark, group in groupby(marks):
        width = len(list(group))
        always = "".join(min(column) for column in columns[at : at + width])
        if mark == "number":
            layout.append(f"{field.way} {field.width} {field.order}".strip())
        elif mark == "sign":
            layout.append("sign 1 bit")
        elif mark == "check":
            layout.append("check")
        else:
            layout += _others(mark, always, at, turned)
        at += width
    return layout


def _others(mark: str, always: str, at: int, turned: bool) -> list[str]:
    """What is beside the number: whole bytes where they are, bits at either end of them."""
    head = min(-at % 8, len(always))
    tail = (len(always) - head) % 8
    middle = always[head : len(always) - tail]
    found = []
    for part in (always[:head], middle, always[len(always) - tail :] if tail else ""):
        if not part:
            continue
        if part is middle and mark == "fixed":
            pairs = (part[k : k + 8] for k in range(0, len(part), 8))
            raw = bytes(int(each[::-1] if turned else each, 2) for each in pairs)
            found.append(f"bytes {raw.hex(' ')}")
        elif mark == "fixed":
            found.append(f"bits {part}")
        else:
            found.append(f"any {len(part) // 8}" if part is middle else f"any {len(part)} bits")
    return found
