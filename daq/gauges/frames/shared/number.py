"""How a number that is sent without its decimal sign stands on the gauge's face."""

from collections.abc import Iterable, Mapping
from typing import Annotated

from daq.settings import Range, cut

PerUnit = Annotated[int, Range(0, 9)] | dict[str, Annotated[int, Range(0, 9)]]
"""Decimals: one number for every unit, or a table with one for each."""


def pointed(digits: str, decimals: int) -> str:
    """Return the digits with a point before the last `decimals` of them, one digit before it."""
    if not decimals:
        return digits
    digits = digits.zfill(decimals + 1)
    return f"{digits[:-decimals]}.{digits[-decimals:]}"


def check_units(key: str, given: Iterable[str], needed: Iterable[str]) -> None:
    """Refuse a table by unit that has not exactly the units a frame may hold.

    Raises:
        ValueError: in plain words, what was found and what is allowed.
    """
    found, allowed = sorted(given), sorted(set(needed))
    if found != allowed:
        raise ValueError(
            f"found {key} for {cut(' and '.join(found)) or 'no unit'}; "
            f"allowed: for {' and '.join(allowed)}"
        )


def decimals(places: PerUnit, units: Iterable[str]) -> Mapping[str, int]:
    """Return how many decimals there are in each unit.

    Raises:
        ValueError: a table that lacks a unit or has one too many.
    """
    if isinstance(places, int):
        return dict.fromkeys(units, places)
    check_units("places", places, units)
    return places
