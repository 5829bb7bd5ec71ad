"""What the keys of a frame's file and its layout must have in common."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from daq.gauges.frames.shared.bitfields import Run
from daq.gauges.frames.shared.checked import Check
from daq.gauges.frames.shared.keys import FieldKeys
from daq.gauges.frames.shared.number import check_units, decimals
from daq.gauges.frames.shared.parts import Part
from daq.gauges.frames.shared.reading import number_of
from daq.settings import found as shown
from daq.settings import quoted
from daq.words import Unit

_ONCE: Final = ("sign", "unit", "flags", "places", "exponent", "check")
_OWN_SIGN: Final = ("signed", "offset", "float", "hex signed", "hex offset")
_MOST_END: Final = 8


def check_keys(keys: FieldKeys, parts: Sequence[Part | Run], can_be: Sequence[Unit]) -> None:
    """Refuse keys that do not go together.

    Raises:
        ValueError: in plain words, what was found and what is allowed.
    """
    roles = _roles(parts)
    for role in _ONCE:
        if roles[role] > 1:
            raise ValueError(f"found {role} more than once in layout; allowed: once")
    number = number_of(parts)
    ways = bool(keys.unit) + bool(roles["unit"]) + bool(keys.unit_by_decimals)
    if ways != 1:
        raise ValueError(
            f"found the unit {'twice' if ways else 'nowhere'}; allowed: either unit in layout, or "
            'a fixed unit = "mm" or "in", or unit_by_decimals'
        )
    for key, role in (("units", "unit"), ("signs", "sign"), ("flags", "flags"), ("check", "check")):
        if getattr(keys, key) and not roles[role]:
            raise ValueError(f"found {key} but no {role} in layout; allowed: both or neither")
    if roles["sign"] and number in _OWN_SIGN:
        raise ValueError("found a sign beside a number that has its own; allowed: one of them")
    for key, there in (
        ("exponent", roles["exponent"]),
        ("unit_by_decimals", keys.unit_by_decimals),
    ):
        if there and number != "number":
            raise ValueError(f'found {key} without "number" in layout; allowed: with it only')
    _check_numbers(keys, roles, can_be)
    _check_texts(keys)


def _check_numbers(keys: FieldKeys, roles: Mapping[str, int], can_be: Sequence[Unit]) -> None:
    if roles["places"] and (keys.places is not None or keys.scale or keys.offset):
        raise ValueError(
            "found places in layout beside places, scale or offset; allowed: either of them"
        )
    if keys.places is not None:
        decimals(keys.places, can_be)
    for key, given in (("scale", keys.scale), ("offset", keys.offset)):
        if isinstance(given, dict):
            check_units(key, given, can_be)
    scales = keys.scale.values() if isinstance(keys.scale, dict) else (keys.scale,)
    if 0.0 in scales:
        raise ValueError("found scale 0; allowed: what one count is worth")


def _check_texts(keys: FieldKeys) -> None:
    end = keys.terminator
    overlaps = any(end.startswith(end[at:]) for at in range(1, len(end)))
    if overlaps or len(end) > _MOST_END:
        raise ValueError(
            f"found terminator {quoted(end)}; allowed: at most {_MOST_END} characters that do not "
            "overlap themselves"
        )
    if end and keys.apart == "pause":
        raise ValueError('found a terminator with apart = "pause"; allowed: one of them')
    for key in ("units", "signs", "flags", "words"):
        for text in (*getattr(keys, key), end):
            if any(ord(character) > 255 for character in text):
                raise ValueError(
                    f"found {shown(text)} in {key}; allowed: characters of one byte each"
                )
    if "" in keys.words:
        raise ValueError('found "" in words; allowed: what stands in the place of the number')


def can_be(keys: FieldKeys) -> tuple[Unit, ...]:
    """Return the units a frame may be in."""
    if keys.unit:
        return (keys.unit,)
    return tuple(sorted({*keys.units.values(), *keys.unit_by_decimals.values()})) or ("mm",)


def line_safe(parts: Sequence[Part | Run], end: bytes) -> bool:
    """Whether no field can hold the beginning of the terminator, but for fixed text that has it."""
    if not end:
        return False
    for part in parts:
        raw = _always(part)
        if raw is not None:
            if end[0] in raw.replace(end, b""):
                return False
        elif isinstance(part, Run):
            if any(end[0] in place for place in part.places):
                return False
        elif part.free is None and end[0] in part.chars:
            return False
    return True


def ends_inside(parts: Sequence[Part | Run], end: bytes) -> int:
    """Return how many terminators stand in a frame's fixed text."""
    return sum((_always(part) or b"").count(end) for part in parts)


def placed(check: Check | None, parts: Sequence[Part | Run]) -> Check | None:
    """Return the check value with the place it has in the layout.

    Raises:
        ValueError: it could not be said where it stands.
    """
    if check is None:
        return None
    if check.at is not None:
        raise ValueError('found check.at; allowed: "check" at its place in layout, and no at')
    at = [isinstance(part, Part) and part.role == "check" for part in parts].index(True)
    before, behind = parts[:at], parts[at:]
    if all(part.places is not None for part in behind):
        return replace(check, at=-sum(len(part.places or ()) for part in behind))
    if all(part.places is not None for part in before):
        return replace(check, at=sum(len(part.places or ()) for part in before))
    raise ValueError(
        'found "check" in layout between fields of any length; allowed: behind it or before it '
        "only what has a fixed length"
    )


def _roles(parts: Sequence[Part | Run]) -> Counter[str]:
    found = Counter[str]()
    for part in parts:
        found.update([f.role for f in part.fields] if isinstance(part, Run) else [part.role])
    return found


def _always(part: Part | Run) -> bytes | None:
    """The bytes of a part that is always the same."""
    if part.places is None or isinstance(part, Run) or any(len(p) > 1 for p in part.places):
        return None
    return bytes(next(iter(place)) for place in part.places)
