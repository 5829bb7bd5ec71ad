"""From the bytes of a laid-out frame to its symbols, and from these to what it says."""

from collections.abc import Callable, Sequence
from functools import lru_cache
from itertools import pairwise, product
from typing import Final

from daq.gauges.frames import Amiss, Indication
from daq.gauges.frames.shared.fixed import Places, finder
from daq.gauges.frames.shared.layout import Allowed, Layout
from daq.gauges.frames.shared.likeness import marked, without_number
from daq.words import Unit

_MARKS: Final = 2
"""A unit shows in its own symbol, and in how many decimals there are."""


def in_bytes(layout: Layout, allowed: Allowed, each: int, low_first: bool = False) -> Places:
    """Return the bytes that may stand at each place of a frame, its terminator included.

    `each` is how many symbols a byte holds, its lowest first with `low_first`; 0 when
    each symbol is sent as its character.

    Raises:
        ValueError: the symbols do not fill their bytes.
    """
    end = [frozenset([byte]) for byte in layout.options.terminator.encode("latin-1")]
    if not each:
        return [frozenset(ord(c) for s in may for c in s + s.upper()) for may in allowed] + end
    if len(allowed) % each:
        raise ValueError(
            f"found {len(allowed)} symbols to be packed; allowed: {each} to each byte, with "
            '"any" in the place of those that mean nothing'
        )
    base, found = len(layout.alphabet), []
    for first in range(0, len(allowed), each):
        byte = allowed[first : first + each]
        symbols = product(*(byte[::-1] if low_first else byte))
        found.append(frozenset(int("".join(some), base) for some in symbols))
    return found + end


def picker(places: Sequence[int]) -> Callable[[str], str]:
    """Return a function that takes the symbols at these places out of a frame."""
    steps = {after - before for before, after in pairwise(places)}
    if len(steps) == 1:  # a slice takes a fifth of the time
        (step,) = steps
        end = places[-1] + step
        run = slice(places[0], None if end < 0 else end, step)
        return lambda symbols: symbols[run]
    return lambda symbols: "".join([symbols[place] for place in places])


class SymbolDecoder:
    """Decodes frames that have a layout: `places` says where their bytes may lie.

    `symbols` turns the bytes of a frame into its symbols, `number` these into the number
    in that unit, as the gauge's face shows it but for a sign that the layout names.
    """

    def __init__(
        self,
        layout: Layout,
        places: Places,
        symbols: Callable[[bytes], str],
        number: Callable[[str, Unit], str],
        allowed: Allowed,
    ) -> None:
        """Begin in the middle of a frame, as an opened port does."""
        options = layout.options
        closing = options.terminator.encode("latin-1")
        self._length = len(places) - len(closing)
        self._check = options.check
        self._finder = finder(places, options.apart, closing, self._holds)
        self._closing = closing
        self._allowed = allowed
        self._digits = frozenset(layout.at(layout.number))
        self._symbols = symbols
        self._number = number
        self._signs = options.signs
        self._sign_at = sum(layout.at("sign"))  # the one place, if there is a sign
        self._unit = options.unit
        self._units = options.units
        self._unit_at = sum(layout.at("unit"))
        self._flags_at = layout.at("flags")
        self._flags = options.flags
        self._picked = picker(self._flags_at)
        self._bits_each = layout.bits_each
        self._base = len(layout.alphabet)
        self._named = lru_cache(maxsize=64)(self._flagged)

    @property
    def bad(self) -> int:
        """How many bad frames were skipped so far."""
        return self._finder.bad

    @property
    def damaged(self) -> int:
        """How many of them were whole but for their check value."""
        return self._finder.damaged

    def feed(self, data: bytes) -> list[Indication]:
        """Take the next bytes; return the indications of the frames that are now complete."""
        return [self._indication(frame[: self._length]) for frame in self._finder.feed(data)]

    def amiss(self, data: bytes) -> Amiss | None:
        """Return what is amiss in all frames of these bytes, wherever the first begins."""
        if without_number([data]):
            return "number"
        whole = self._length + len(self._closing)
        for first in range(whole):
            cut = [data[at : at + whole] for at in range(first, len(data) - whole + 1, whole)]
            if all(frame.endswith(self._closing) for frame in cut):
                try:
                    odd = [self._odd(frame[: self._length]) for frame in cut]
                except ValueError:  # no text, or two bytes that are one symbol
                    continue
                if found := marked(odd, self._digits, _MARKS):
                    return found
                if cut and not any(odd) and not any(map(self._holds, cut)):
                    return "check"
        return None

    def _holds(self, frame: bytes) -> bool:
        return self._check is None or self._check.holds(frame[: self._length])

    def _odd(self, raw: bytes) -> frozenset[int]:
        """Return the places of the symbols that may not stand there."""
        symbols = zip(self._symbols(raw), self._allowed, strict=True)
        return frozenset(at for at, (one, may) in enumerate(symbols) if one not in may)

    def gap(self) -> None:
        """Drop a frame begun before a silence; one told apart by silences is now complete."""
        self._finder.gap()

    def _indication(self, raw: bytes) -> Indication:
        symbols = self._symbols(raw)
        unit = self._unit or self._units[symbols[self._unit_at]]
        text = self._number(symbols, unit)
        if self._signs:
            text = self._signs[symbols[self._sign_at]] + text
        flags = self._named(self._picked(symbols)) if self._flags_at else ()
        return Indication(text, float(text), unit, flags, raw)

    def _flagged(self, symbols: str) -> tuple[str, ...]:
        """Return the names of the flags that are set in the flags' symbols."""
        names = []
        for place, symbol in enumerate(symbols):
            value = int(symbol, self._base)
            for bit in range(self._bits_each):
                if value >> bit & 1:
                    number = place * self._bits_each + bit
                    names.append(self._flags.get(str(number), f"flag-{number}"))
        return tuple(name for name in names if name)
