"""Frames said field by field: texts, numbers, bytes, half-bytes, bits, one behind the other.

Whatever a frame is made of can be said here; the other shapes are short ways to say the most
usual ones. A frame counts only when all of it is as its layout says, and its check value, if
it has one, as its bytes say. Frames are found by their terminator where no field can hold it
(a frame may then have several lines), else by what may stand at each of their places, or by
the pauses between them.
"""

from collections.abc import Iterable
from dataclasses import dataclass, fields, replace
from typing import Final, Literal

from daq.gauges.frames.shared.bitfields import Run
from daq.gauges.frames.shared.decoding import FieldsDecoder
from daq.gauges.frames.shared.keys import FieldKeys
from daq.gauges.frames.shared.parts import taken_apart
from daq.gauges.frames.shared.reading import number_of
from daq.gauges.frames.shared.together import can_be, check_keys, placed
from daq.words import Unit

_SIGNS: Final[dict[str, Literal["+", "-"]]] = {"+": "+", "-": "-", " ": "+"}
_SIGN_BITS: Final[dict[str, Literal["+", "-"]]] = {"0": "+", "1": "-"}
_UNITS: Final[dict[str, Unit]] = {"mm": "mm", "in": "in"}


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldsOptions(FieldKeys):
    """The keys of a frame that is said field by field: see `FieldKeys`."""

    def __post_init__(self) -> None:
        """Refuse what could not be decoded without guessing.

        Raises:
            ValueError: in plain words, what was found and what is allowed.
        """
        _decoder(self)


def _whole(given: FieldKeys) -> FieldKeys:
    """The keys with the tables that hold where none are given."""
    items = given.layout
    own = {each.name: getattr(given, each.name) for each in fields(FieldKeys)}
    own["signs"] = given.signs or (_SIGNS if "sign" in items else _SIGN_BITS)
    own["units"] = given.units or (_UNITS if "unit" in items else {})
    return FieldKeys(**own)


def _decoder(given: FieldKeys) -> FieldsDecoder:
    options = _whole(given)
    tables: dict[str, Iterable[str]] = {
        "sign": options.signs,
        "unit": options.units,
        "flags": options.flags,
        "point": [options.decimal],
    }
    parts = taken_apart(options.layout, tables, options.check)
    units = can_be(options)
    check_keys(given, parts, units)
    if options.order == "low-first":
        parts = [part.low_first() if isinstance(part, Run) else part for part in parts]
    sealed = replace(options, check=placed(options.check, parts))
    return FieldsDecoder(sealed, parts, units, number_of(parts))


@dataclass(frozen=True, slots=True)
class FieldsShape:
    """Texts, numbers, bytes, half-bytes and bits, one behind the other."""

    options: type[FieldsOptions] = FieldsOptions

    def make(self, options: FieldsOptions) -> FieldsDecoder:
        """Return a decoder that has seen nothing yet."""
        return _decoder(options)


SHAPE: Final = FieldsShape()
