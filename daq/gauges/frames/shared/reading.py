"""What a frame says that was told field by field: from its matched parts to an indication."""

import re
import struct
from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any, Final

from daq.gauges.frames import Indication
from daq.gauges.frames.shared.bitfields import REVERSED, BitField, Run, sent_low_first
from daq.gauges.frames.shared.keys import FieldKeys, PerUnitFloat
from daq.gauges.frames.shared.number import decimals, pointed
from daq.gauges.frames.shared.parts import Part
from daq.words import Unit

_PLAIN: Final = re.compile(r"[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+")
_FINEST: Final = 9
_LARGEST: Final = 10**6
_FLOATS: Final = {32: ">f", 64: ">d"}


class FrameReading:
    """Reads frames whose form is right; what their tables do not hold makes them bad."""

    def __init__(
        self, said: FieldKeys, parts: Sequence[Part | Run], can_be: Sequence[Unit]
    ) -> None:
        """Take the tables as the parts need them."""
        self._said = said
        self._runs = [part for part in parts if isinstance(part, Run)]
        self._of_bits = {field.role: field for run in self._runs for field in run.fields}
        self._number = number_of(parts)
        self._low_first = said.order == "low-first"
        self._places = None if said.places is None else decimals(said.places, can_be)
        self._scale = _by_unit(said.scale, can_be)
        self._offset = _by_unit(said.offset, can_be)
        self._can_be = can_be
        self._signs: Mapping[Any, str] = self._keyed("sign", said.signs)
        self._units: Mapping[Any, Unit] = self._keyed("unit", said.units)

    def read(self, raw: bytes, match: re.Match[bytes]) -> Indication:
        """Return what a frame says.

        Raises:
            ValueError, KeyError: it holds what no table of the file has, or no number.
        """
        got: dict[str, Any] = match.groupdict()
        for run in self._runs:
            part = got.pop(run.group)
            taken = run.taken(part.translate(REVERSED) if self._low_first else part)
            got.update({role: taken[role] for role in taken if role not in ("any", "bits")})
        flags = self._flags(got["flags"]) if "flags" in got else ()
        sign = self._signs[got["sign"]] if "sign" in got else ""
        if self._number == "number":
            return self._written(raw, got, sign, flags)
        unit = self._unit(got)
        exact, digits = self._counted(got)
        key = "nan" if exact is None else f"{got[self._number]:x}" if self._said.words else ""
        if key in self._said.words:
            return self.missing(raw, key)
        if exact is None:
            raise ValueError("no number")
        if self._number == "float" or self._computes:
            return self._computed(raw, exact, sign, unit, flags)
        places = got["places"] if "places" in got else self._shift(unit)
        text = ("-" if exact < 0 else sign) + pointed(digits, places)
        return Indication(text, float(text), unit, flags, raw)

    def missing(self, raw: bytes, word: str) -> Indication:
        """Return what a word in the place of the number says: that there is none, and why."""
        return Indication(word, 0.0, self._can_be[0], (self._said.words[word],), raw)

    @property
    def _computes(self) -> bool:
        return bool(self._scale or self._offset)

    def _written(
        self, raw: bytes, got: Mapping[str, Any], sign: str, flags: tuple[str, ...]
    ) -> Indication:
        """A number in text, its sign and digits as sent."""
        text = got["value"].decode().strip()
        if not _PLAIN.fullmatch(text):
            raise ValueError("no number")
        plain = text.replace(",", ".")
        after = len(plain.partition(".")[2])
        by_decimals = self._said.unit_by_decimals
        unit = by_decimals[str(after)] if by_decimals else self._unit(got)
        if "exponent" in got or self._computes:
            exact = Decimal(plain).scaleb(int(got.get("exponent", b"e0")[1:]))
            return self._computed(raw, exact, sign, unit, flags)
        if plain is text and "." not in text:
            text = plain = pointed(text, self._shift(unit))
        return Indication(sign + text, float(sign + plain), unit, flags, raw)

    def _counted(self, got: dict[str, Any]) -> tuple[Decimal | None, str]:
        """A count, and its digits; None for a float that is no number."""
        role = self._number
        if role.startswith("hex"):
            width, way = 4 * len(got["value"]), role.partition(" ")[2]
            count, got[role] = int(got["value"], 16), int(got["value"], 16)
        else:
            field = self._of_bits[role]
            width, way, count = field.width, role, got[role]
            if role == "float":
                return _real(count, field, self._places is not None), ""
            if field.order:
                count = sent_low_first(count, field, self._low_first)
        if way == "bcd":
            digits = f"{count:0{width // 4}x}"
            return Decimal(int(digits)), digits
        if way == "signed" and count >> width - 1:
            count -= 1 << width
        elif way == "offset":
            count -= 1 << width - 1
        return Decimal(count), str(abs(count))

    def _computed(
        self, raw: bytes, exact: Decimal, sign: str, unit: Unit, flags: tuple[str, ...]
    ) -> Indication:
        """A number that stands nowhere in the frame as it is: rounded to its places."""
        exact = -exact if sign == "-" else exact
        exact = exact * self._scale.get(unit, 1) + self._offset.get(unit, 0)
        if not abs(exact) < _LARGEST:
            raise ValueError("no length")
        if self._places is not None:
            exact = exact.quantize(Decimal(1).scaleb(-self._places[unit]))
        elif int(exact.as_tuple().exponent) < -_FINEST:
            exact = exact.quantize(Decimal(1).scaleb(-_FINEST))
        text = f"{exact if exact else abs(exact):f}"
        return Indication(text, float(text), unit, flags, raw)

    def _shift(self, unit: Unit) -> int:
        return 0 if self._places is None else self._places[unit]

    def _unit(self, got: Mapping[str, Any]) -> Unit:
        return self._said.unit or self._units[got["unit"]]

    def _keyed(self, role: str, table: Mapping[str, Any]) -> Mapping[Any, Any]:
        """A table by what its field holds: a number of bits, or a text's bytes."""
        if role in self._of_bits:
            return {int(symbol, 16): meaning for symbol, meaning in table.items()}
        return {symbol.encode("latin-1"): meaning for symbol, meaning in table.items()}

    def _flags(self, held: bytes | int) -> tuple[str, ...]:
        """The names of flags: of a text, or of bits counted in the order sent."""
        named = self._said.flags
        if isinstance(held, bytes):
            names = [named[held.decode("latin-1")]]
        else:
            width = self._of_bits["flags"].width
            bits = [bit for bit in range(width) if held >> width - 1 - bit & 1]
            names = [named.get(str(bit), f"flag-{bit}") for bit in bits]
        return tuple(name for name in names if name)


def number_of(parts: Sequence[Part | Run]) -> str:
    """Return which field is the number; "hex" with how it is read.

    Raises:
        ValueError: there is none, or another one.
    """
    found = []
    for part in parts:
        if isinstance(part, Run):
            roles = [field.role for field in part.fields]
            found += [r for r in roles if r in ("unsigned", "signed", "offset", "float", "bcd")]
        elif part.role == "value":
            word, _, rest = part.item.partition(" ")
            found.append(f"hex {rest.partition(' ')[2]}".strip() if word == "hex" else word)
    if len(found) != 1:
        raise ValueError(
            f"found {len(found)} numbers in layout; allowed: one of number, hex, unsigned, signed, "
            'offset, float, bcd; "any" in the place of others'
        )
    return found[0]


def _by_unit(given: PerUnitFloat | None, can_be: Sequence[Unit]) -> Mapping[str, Decimal]:
    if given is None:
        return {}
    table = dict.fromkeys(can_be, given) if isinstance(given, float) else given
    return {unit: Decimal(repr(each)) for unit, each in table.items()}


def _real(bits: int, field: BitField, rounded: bool) -> Decimal | None:
    """Return an IEEE 754 number; None for what is none.

    By the fewest digits that are it, unless it is `rounded` anyway.
    """
    raw = bits.to_bytes(field.width // 8, "big")
    if field.order in ("low-first", "swapped-bytes"):
        raw = raw[::-1]
    if field.order in ("low-word-first", "swapped-bytes"):
        raw = b"".join(raw[at : at + 2] for at in range(len(raw) - 2, -1, -2))
    form = _FLOATS[field.width]
    (value,) = struct.unpack(form, raw)
    if value - value != 0.0:  # neither infinite nor no number
        return None
    if rounded or field.width == 64:
        return Decimal(repr(value))
    texts = (f"{value:.{digits}g}" for digits in range(6, 10))
    return Decimal(next(text for text in texts if _same(form, text, value)))


def _same(form: str, text: str, value: float) -> bool:
    try:
        return bool(struct.unpack(form, struct.pack(form, float(text)))[0] == value)
    except OverflowError:
        return False
