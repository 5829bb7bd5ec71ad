"""What a frame says that was told field by field: from its matched parts to an indication."""

import re
import struct
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from functools import lru_cache
from operator import itemgetter
from typing import Any, Final

from daq.gauges.frames import Indication
from daq.gauges.frames.shared.bitfields import Run, picker
from daq.gauges.frames.shared.keys import FieldKeys, PerUnitFloat
from daq.gauges.frames.shared.number import decimals, pointed
from daq.gauges.frames.shared.parts import Part
from daq.words import Unit

_PLAIN: Final = re.compile(r"[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+")
_FINEST: Final = 9
_LARGEST: Final = 10**6
Seen = str | re.Match[bytes]
_FLOATS: Final = {4: ">f", 8: ">d"}


@dataclass(frozen=True, slots=True)
class Short:
    """What a short form says that no key does.

    `steps`: how many of the last decimal a count is, by unit, if not one; `plus`: what a number
    with a sign of its own shows above zero; `lowest_first`: the number's last symbol comes first;
    `flags`: the place of each among the bits sent, and its name, in the order they are told.
    """

    steps: Mapping[Unit, int] = field(default_factory=dict)
    plus: str = ""
    lowest_first: bool = False
    flags: Sequence[tuple[int, str]] = ()


class FrameReading:
    """Reads frames whose form is right; what their tables do not hold makes them bad.

    A frame that is a run is read from its symbols, one of several parts from its match.
    """

    def __init__(
        self,
        said: FieldKeys,
        parts: Sequence[Part | Run] | Run,
        can_be: Sequence[Unit],
        number: str,
        short: Short,
    ) -> None:
        """Take the tables as the parts need them; `number` is the role of the number's field."""
        self._said = said
        self._alone = isinstance(parts, Run)
        self._parts = [parts] if isinstance(parts, Run) else parts
        self._short = short
        self._unit = said.unit
        self._can_be = can_be
        self._number = number
        self._places = {} if said.places is None else decimals(said.places, can_be)
        self._scale = _by_unit(said.scale, can_be)
        self._offset = _by_unit(said.offset, can_be)
        self._computes = bool(self._scale or self._offset)
        self._seldom = bool(self._computes or said.words or number == "float")
        self._signs: Mapping[Any, str] = self._keyed("sign", said.signs)
        self._units: Mapping[Any, Unit] = self._keyed("unit", said.units)
        self._sign_of = self._taken("sign")
        self._unit_of = self._taken("unit") or str
        self._flags_of = self._taken("flags")
        self._places_of = self._taken("places")
        self._places_base = 1 << self._each("places")
        self._exponent_of = self._taken("exponent")
        self._value_of = self._taken(number) or itemgetter("value")
        self._base = 1 << self._each(number)
        self._shown = self._face(number.removeprefix("hex "))
        self._named = lru_cache(maxsize=64)(self._flags)

    def read(self, raw: bytes, seen: Seen) -> Indication:
        """Return what a frame says, as it is `seen`: its symbols, or its match.

        Raises:
            ValueError, KeyError: it holds what no table of the file has, or no number.
        """
        flags = self._named(self._flags_of(seen)) if self._flags_of else ()
        sign = self._signs[self._sign_of(seen)] if self._sign_of else ""
        held = self._value_of(seen)
        if self._number == "number":
            return self._written(raw, seen, held.decode().strip(), sign, flags)
        unit = self._unit or self._units[self._unit_of(seen)]
        if self._seldom:
            if self._said.words and (key := self._key(held)) in self._said.words:
                return self.missing(raw, key)
            if self._number == "float" or self._computes:
                return self._computed(raw, self._exact(held), sign, unit, flags)
        after = self._places_of
        places = self._places.get(unit, 0) if not after else int(after(seen), self._places_base)
        text = sign + self._shown(held, unit, places)
        # tuple.__new__() passes by the class's own constructor, a call more on every frame.
        return tuple.__new__(Indication, (text, float(text), unit, flags, raw))

    def missing(self, raw: bytes, word: str) -> Indication:
        """Return what a word in the place of the number says: that there is none, and why."""
        return Indication(word, 0.0, self._can_be[0], (self._said.words[word],), raw)

    def _taken(self, role: str) -> Callable[[Any], Any] | None:
        """Return what takes a field out of what is seen of a frame."""
        turn = -1 if self._short.lowest_first and role == self._number else 1
        for part in self._parts:
            if isinstance(part, Run) and (at := part.at(role)):
                pick = picker(at[::turn])
                return pick if self._alone else _of_run(part, pick)
            if isinstance(part, Part) and part.role == role:
                return itemgetter(role)
        return None

    def _each(self, role: str) -> int:
        """How many bits a symbol of that field is; of characters, hexadecimal ones, four."""
        runs = (part for part in self._parts if isinstance(part, Run) and part.at(role))
        return next((run.each for run in runs), 4)

    def _written(
        self, raw: bytes, seen: Seen, text: str, sign: str, flags: tuple[str, ...]
    ) -> Indication:
        """A number in text, its sign and digits as sent."""
        if not _PLAIN.fullmatch(text):
            raise ValueError("no number")
        plain = text.replace(",", ".")
        after = len(plain.partition(".")[2])
        by_decimals = self._said.unit_by_decimals
        unit = by_decimals[str(after)] if by_decimals else self._said.unit
        unit = unit or self._units[self._unit_of(seen)]
        if self._exponent_of or self._computes:
            exponent = self._exponent_of(seen) if self._exponent_of else b"e0"
            exact = Decimal(plain).scaleb(int(exponent[1:]))
            return self._computed(raw, exact, sign, unit, flags)
        if plain is text and "." not in text:
            text = plain = pointed(text, self._places.get(unit, 0))
        return Indication(sign + text, float(sign + plain), unit, flags, raw)

    def _face(self, way: str) -> Callable[[Any, Unit, int], str]:
        """Return what makes a number's symbols its text: of so many decimals, with its own sign."""
        base, each, plus = self._base, self._each(self._number), self._short.plus
        steps = {unit: self._short.steps.get(unit, 1) for unit in self._can_be}

        def signed(held: str | bytes, unit: Unit, places: int) -> str:
            count, half = int(held, base), 1 << each * len(held) - 1
            if way == "offset":
                count -= half
            elif count >= half:
                count -= 2 * half
            return ("-" if count < 0 else plus) + pointed(str(abs(count) * steps[unit]), places)

        if way in ("signed", "offset"):
            return signed
        if way != "bcd":
            return lambda held, unit, places: pointed(str(int(held, base) * steps[unit]), places)
        if each == 4:
            return lambda held, unit, places: pointed(held, places)
        return lambda held, unit, places: pointed(_digits(held), places)

    def _key(self, held: str | bytes) -> str:
        """The word in place of the number that these symbols are, if they are one."""
        exact = self._number != "float" or _real(self._bytes(held), rounded=True)
        return "nan" if exact is None else f"{int(held, self._base):x}"

    def _exact(self, held: str | bytes) -> Decimal:
        if self._number != "float":
            return Decimal(self._shown(held, self._can_be[0], 0))
        exact = _real(self._bytes(held), bool(self._places))
        if exact is None:
            raise ValueError("no number")
        return exact

    def _bytes(self, held: str | bytes) -> bytes:
        return int(held, self._base).to_bytes(len(held) // (2 if self._base == 16 else 8))

    def _computed(
        self, raw: bytes, exact: Decimal, sign: str, unit: Unit, flags: tuple[str, ...]
    ) -> Indication:
        """A number that stands nowhere in the frame as it is: rounded to its places."""
        exact = -exact if sign == "-" else exact
        exact = exact * self._scale.get(unit, 1) + self._offset.get(unit, 0)
        if not abs(exact) < _LARGEST:
            raise ValueError("no length")
        if self._places:
            exact = exact.quantize(Decimal(1).scaleb(-self._places[unit]))
        elif int(exact.as_tuple().exponent) < -_FINEST:
            exact = exact.quantize(Decimal(1).scaleb(-_FINEST))
        text = f"{exact if exact else abs(exact):f}"
        return Indication(text, float(text), unit, flags, raw)

    def _keyed(self, role: str, table: Mapping[str, Any]) -> Mapping[Any, Any]:
        """A table by what its field holds: symbols, or a text's bytes."""
        runs = [part for part in self._parts if isinstance(part, Run) and part.at(role)]
        if not runs:
            return {symbol.encode("latin-1"): meaning for symbol, meaning in table.items()}
        count, form = len(runs[0].at(role)), "x" if runs[0].each == 4 else "b"
        return {f"{int(key, 16):0{count}{form}}": meaning for key, meaning in table.items()}

    def _flags(self, held: bytes | str) -> tuple[str, ...]:
        """The names of flags: of a text, or of bits counted in the order sent."""
        named = self._said.flags
        if isinstance(held, bytes):
            return (named[held.decode("latin-1")],) if named[held.decode("latin-1")] else ()
        each = self._each("flags")
        width, value = len(held) * each, int(held, 1 << each)
        told = self._short.flags or [(b, named.get(str(b), f"flag-{b}")) for b in range(width)]
        return tuple(name for bit, name in told if name and value >> width - 1 - bit & 1)


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


def _real(raw: bytes, rounded: bool) -> Decimal | None:
    """Return an IEEE 754 number; None for what is none.

    By the fewest digits that are it, unless it is `rounded` anyway.
    """
    form = _FLOATS[len(raw)]
    (value,) = struct.unpack(form, raw)
    if value - value != 0.0:  # neither infinite nor no number
        return None
    if rounded or len(raw) == 8:
        return Decimal(repr(value))
    texts = (f"{value:.{digits}g}" for digits in range(6, 10))
    return Decimal(next(text for text in texts if _same(form, text, value)))


def _same(form: str, text: str, value: float) -> bool:
    try:
        return bool(struct.unpack(form, struct.pack(form, float(text)))[0] == value)
    except OverflowError:
        return False


def _digits(bits: str) -> str:
    """Decimal digits of four bits each.  Raises ValueError."""
    return f"{int(f'{int(bits, 2):x}'):0{len(bits) // 4}d}"


def _of_run(run: Run, pick: Callable[[str], str]) -> Callable[[Any], str]:
    return lambda match: pick(run.symbols(match[run.group]))
