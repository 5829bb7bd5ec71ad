"""Every way to read the faces out of the bytes, the simplest first.

A way is found by what the frames held when each face was typed; it counts only if the ordinary
decoder, made from its table, then finds just these numbers, and frames wherever some came.
"""

import json
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import islice
from math import log10
from typing import Final

from daq.gauges.learn import around, binary, judge, nibbles
from daq.gauges.learn.cutting import Cut, cuts, is_text
from daq.gauges.learn.evidence import Encoding, Evidence, Held, Table
from daq.gauges.learn.written import spots
from daq.units import MM_PER

_SPOTS: Final = 24
_TRIED: Final = 400
"""So many tables are tried with the decoder at most."""
_PLAIN: Final = 3.5
_EDGES: Final = 2
_KEPT: Final = 12
_NEAR: Final = 8
_STILL: Final = 0.6
_READ: Final = 0.6
"""So much of what a hand moved must be read, of the frames that are not others'."""


def encodings(evidence: Evidence) -> list[Encoding]:
    """Return the ways to read all the faces, the simplest first; none without a face.

    Once a cut of what was heard gives a plain one, no further cut is tried.
    """
    if not evidence.held:
        return []
    tried: dict[str, Encoding | None] = {}
    for cut in cuts(evidence):
        if any(each is not None and each.cost <= _PLAIN for each in tried.values()):
            break
        for table, cost in islice(_tables(cut, evidence), _TRIED):
            key = json.dumps(table, sort_keys=True, default=str)
            if key not in tried:
                tried[key] = _tried(table, cost, cut, evidence)
    found = [each for each in tried.values() if each is not None]
    return sorted(found, key=lambda each: each.cost)[:_KEPT]


def apart(found: Sequence[Encoding], evidence: Evidence) -> list[Encoding]:
    """Return of the encodings one each for all that read the same numbers so far."""
    kinds: list[tuple[frozenset[tuple[str, float]], Encoding]] = []
    for each in found:
        read = judge.decoded(each.table, evidence.heard) or []
        values = frozenset((one.unit, one.value) for one in read)
        # At either end of what was heard, one may have a frame more than another.
        if all(len(values ^ known) > _EDGES for known, _ in kinds):
            kinds.append((values, each))
    return [each for _, each in kinds]


def _tables(cut: Cut, evidence: Evidence) -> Iterator[tuple[Table, float]]:
    faces = [held.face for held in evidence.held]
    if is_text(cut.frames):
        for spot in spots(cut, faces)[:_SPOTS]:
            yield from around.tables(cut, spot, faces, evidence.paused)
    travel = Fraction(evidence.travel_mm) / Fraction(MM_PER[faces[0].unit])
    places = faces[0].places
    digits = int(log10(max(1.0, float(travel)))) + 1 + places
    yield from nibbles.tables(cut, faces, digits)
    if not cut.keys and not is_text(cut.frames):
        yield from binary.tables(cut, faces, travel)


def _tried(table: Table, cost: float, cut: Cut, evidence: Evidence) -> Encoding | None:
    """Return the encoding if its decoder reads the faces; told apart by content if it can be."""
    ways = [table]
    if "terminator" not in table and table.get("apart") != "pause":
        ways += [table | {"apart": "pause"}] if evidence.paused else []
    for way in ways:
        if all(_reads(way, held) for held in evidence.held):
            read = judge.decoded(way, evidence.heard) or []
            if len(read) < _READ * min(cut.at_least, len(cut.frames)):
                continue
            smooth = judge.smoothness([each.value for each in read])
            signs = {held.face.number < 0 for held in evidence.held if held.face.number}
            return Encoding(way, cost + 2.0 * (1.0 - smooth), len(read), len(signs) > 1, smooth)
    return None


def _reads(table: Table, held: Held) -> bool:
    """Return whether a table reads a face out of what came with it."""
    read = judge.decoded(table, held.pieces)
    if not read or any(each.unit != held.face.unit for each in read):
        return False
    number = float(held.face.number)
    one = 10.0**-held.face.places
    if any(each.text.partition(".")[2][held.face.places :].strip("0") for each in read):
        return False
    off = [abs(each.value - number) for each in read]
    near = sum(each <= (_NEAR + 0.5) * one for each in off)
    return min(off) <= 0.500001 * one and near >= _STILL * len(off)
