"""Frames laid out symbol by symbol: nibbles or bits in the order sent, each with its role.

The shapes that are so are short forms: what they say is handed on as fields of bits.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import fields
from typing import Final

from daq.gauges.frames.shared.bitfields import BitField, Run, spelled
from daq.gauges.frames.shared.keys import FieldKeys, LaidOut
from daq.gauges.frames.shared.number import PerUnit
from daq.settings import found as shown
from daq.settings import quoted
from daq.words import Unit

_ITEM: Final = re.compile(r"([a-z]+(?:\+[a-z]+)*)(?: ([0-9a-f]+))?")
_MOST: Final = 128
_ONCE: Final = ("sign", "unit", "places")
_TERMINATOR: Final = re.compile(r"[\x00-\xff]{0,4}", re.DOTALL)


class Layout:
    """A layout taken apart: which roles each symbol of a frame has."""

    def __init__(self, options: LaidOut, alphabet: str, fixed: str, roles: Sequence[str]) -> None:
        """Take the layout apart: symbols of `alphabet`, the word `fixed` before given ones.

        The first of the shape's own `roles` is the number's.

        Raises:
            ValueError: in plain words, what was found and what is allowed.
        """
        self.alphabet = alphabet
        self.number = roles[0]
        self.bits_each = (len(alphabet) - 1).bit_length()
        self.options = options
        self._fixed: list[str] = []  # for each symbol the one it must be, or ""
        self._roles: list[tuple[str, ...]] = []
        known = {"sign", "unit", "flags", "any", *roles}
        for item in options.layout:
            match = _ITEM.fullmatch(item)
            words, argument = (tuple(match[1].split("+")), match[2]) if match else ((), None)
            if words == (fixed,) and argument and set(argument) <= set(alphabet):
                self._fixed += argument
                self._roles += [()] * len(argument)
            elif words and known.issuperset(words) and (argument or "1").isdecimal():
                count = min(int((argument or "1").lstrip("0")[:4] or 0), _MOST + 1)
                self._fixed += [""] * count
                self._roles += [words] * count
            else:
                raise ValueError(
                    f'found {shown(item)} in layout; allowed: "{fixed} {alphabet[-1] * 2}" for '
                    f"symbols that are always the same, or {', '.join(sorted(known))}, "
                    "with how many of them"
                )
        if not 1 <= len(self._roles) <= _MOST:
            raise ValueError(
                f"found {len(self._roles)} symbols in layout; allowed: 1 to {_MOST} in all"
            )
        for role in _ONCE:
            if len(self.at(role)) > 1:
                raise ValueError(f"found {role} more than once in layout; allowed: once")
        self._check()

    def at(self, role: str) -> tuple[int, ...]:
        """Return the places of the symbols with that role."""
        return tuple(at for at, roles in enumerate(self._roles) if role in roles)

    def run(
        self, names: Mapping[str, str], packing: str, low_first: bool, **may: Iterable[str]
    ) -> Run:
        """Return the layout as fields of bits, one a symbol, by the names that roles have there.

        `may` says what may stand for a role of the shape's own.

        Raises:
            ValueError: one with several roles can be nothing, or they do not fill their bytes.
        """
        tables = {**may, "sign": self.options.signs, "unit": self.options.units}
        made = []
        for fixed, roles in zip(self._fixed, self._roles, strict=True):
            known = [tables[role] for role in roles if role in tables]
            symbols = frozenset(fixed or self.alphabet).intersection(*known)
            if not symbols:
                raise ValueError(
                    f"found no symbol that is allowed for {' and '.join(roles)}; "
                    "allowed: tables with symbols in common"
                )
            role = "+".join(names.get(role, role) for role in roles) or "bits"
            values = frozenset(int(symbol, 16) for symbol in symbols)
            made.append(BitField(role, self.bits_each, "", values))
        if packing == "single":
            return spelled(made, lambda raw: raw.hex()[1::2], text=False)
        if packing != "packed":
            return spelled(made, lambda raw: raw.decode().lower(), text=True)
        each = 8 // self.bits_each
        if len(made) % each:
            raise ValueError(
                f"found {len(made)} symbols to be packed; allowed: {each} to each byte, with "
                '"any" in the place of those that mean nothing'
            )
        run = Run.of(made)
        if not low_first:
            return run
        return run.halves_swapped() if self.bits_each > 1 else run.low_first()

    def keys(self, places: PerUnit | None = None) -> FieldKeys:
        """Return the keys that they have in common with any frame."""
        shared = {each.name: getattr(self.options, each.name) for each in fields(LaidOut)}
        return FieldKeys(places=places, **shared)

    @property
    def can_be(self) -> tuple[Unit, ...]:
        """The units a frame may be in."""
        options = self.options
        return (options.unit,) if options.unit else tuple(sorted(set(options.units.values())))

    def _check(self) -> None:
        """Refuse what does not go together.  Raises ValueError in plain words."""
        options, flags = self.options, len(self.at("flags")) * self.bits_each
        if bool(self.at("unit")) == bool(options.unit):
            raise ValueError(
                f"found the unit {'twice' if options.unit else 'nowhere'}; allowed: either unit "
                'in layout or a fixed unit = "mm" or "in"'
            )
        self._check_table("signs", "sign", options.signs)
        self._check_table("units", "unit", options.units)
        for number in options.flags:
            if number not in map(str, range(flags)):
                raise ValueError(
                    f"found flag {shown(number)}; "
                    f"allowed: 0 to {flags - 1}, counted in the order sent"
                    if flags
                    else "found flags but none in layout; allowed: both or neither"
                )
        if not _TERMINATOR.fullmatch(options.terminator):
            raise ValueError(
                f"found terminator {quoted(options.terminator)}; allowed: at most 4 characters, "
                "each one byte"
            )

    def _check_table(self, key: str, role: str, table: Mapping[str, str]) -> None:
        if bool(table) != bool(self.at(role)):
            there, lacking = (key, f"{role} in layout") if table else (f"{role} in layout", key)
            raise ValueError(f"found {there} but no {lacking}; allowed: both or neither")
        for symbol in table:
            if len(symbol) != 1 or symbol not in self.alphabet:
                raise ValueError(
                    f"found {shown(symbol)} in {key}; allowed: one of {' '.join(self.alphabet)}"
                )
