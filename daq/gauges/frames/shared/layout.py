"""Frames laid out symbol by symbol: nibbles or bits in the order sent, each with its role."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final, Literal

from daq.gauges.frames.shared.checked import Check
from daq.gauges.frames.shared.fixed import Apart
from daq.settings import found as shown
from daq.settings import quoted
from daq.words import Unit

_ITEM: Final = re.compile(r"([a-z]+(?:\+[a-z]+)*)(?: ([0-9a-f]+))?")
_MOST: Final = 128
_ONCE: Final = ("sign", "unit", "places")
_TERMINATOR: Final = re.compile(r"[\x00-\xff]{0,4}", re.DOTALL)

Allowed = Sequence[frozenset[str]]
"""The symbols that may stand at each place of a frame."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidOut:
    """The keys that frames with a layout share.

    `layout` lists the roles in the order sent, each with how many symbols it takes when
    that is not one. `signs` and `units` say what their symbol may be and what it means;
    `unit` replaces the latter where the unit is not sent. `flags` names the bits of
    the flags, counted from 0 in the order sent; "" is not recorded. `terminator` is what follows
    the layout. `apart` says how frames are told apart: "content" or "pause". `check` is the
    frame's check value, which the layout has as "any".
    """

    layout: tuple[str, ...]
    signs: dict[str, Literal["+", "-"]] = field(default_factory=dict)
    unit: Unit | None = None
    units: dict[str, Unit] = field(default_factory=dict)
    flags: dict[str, str] = field(default_factory=dict)
    terminator: str = ""
    apart: Apart = "content"
    check: Check | None = None


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

    def allowed(self, **symbols: Iterable[str]) -> Allowed:
        """Return what each symbol may be; `symbols` says it for the shape's own roles.

        Raises:
            ValueError: one with several roles can be nothing.
        """
        tables = {**symbols, "sign": self.options.signs, "unit": self.options.units}
        found = []
        for fixed, roles in zip(self._fixed, self._roles, strict=True):
            may = frozenset(fixed or self.alphabet)
            for role in roles:
                may &= frozenset(tables.get(role, self.alphabet))
            if not may:
                raise ValueError(
                    f"found no symbol that is allowed for {' and '.join(roles)}; "
                    "allowed: tables with symbols in common"
                )
            found.append(may)
        return found

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
