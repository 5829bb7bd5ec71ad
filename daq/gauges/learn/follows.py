"""Whether symbols beside a number say something of their own, or follow from the number.

A check (a parity, a sum, a cyclic redundancy check) is a function of the rest of its frame:
where the rest comes again, so does the check. The last digit of a number is not: with the
same digits before it, it comes as any other.
"""

from collections import defaultdict
from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass
from functools import reduce
from math import ceil, log2
from typing import Final

_SURE_BITS: Final = 16
"""What is right by chance once in 65 000 times is taken for no chance."""
_STOPS: Final = 2
"""A contact comes back to its two ends whatever its last digit means: they prove nothing."""
_FREE: Final = 2
_ALIKE: Final = 6
_MODULI: Final = (10, 16, 64, 100, 128, 256, 1000, 4096, 10_000, 65_536)


@dataclass(frozen=True, slots=True)
class Pair:
    """What one frame says: the `rest`, symbol by symbol as numbers, and the `part` in question.

    `kind` is what sums may be counted anew for: the sign, the number of symbols.
    """

    kind: Hashable
    rest: tuple[int, ...]
    part: int


def follows(pairs: Sequence[Pair]) -> bool | None:
    """Return whether the part is a function of the rest; None when it cannot be told yet."""
    parts: dict[tuple[Hashable, ...], set[int]] = defaultdict(set)
    # A hand that goes the same way again, or back, proves nothing by the same last digit.
    ways: dict[Hashable, set[frozenset[Hashable]]] = defaultdict(set)
    keys = [(pair.kind, pair.rest) for pair in pairs]
    for at, (pair, key) in enumerate(zip(pairs, keys, strict=True)):
        parts[key].add(pair.part)
        ways[key].add(frozenset((*keys[max(0, at - 1) : at], *keys[at + 1 : at + 2])) - {key})
    if sum(len(each) > 1 for each in parts.values()) >= _FREE:
        return False
    unlike = list(dict(zip(keys, pairs, strict=True)).values())
    unlike = [each for each in unlike if len(parts[each.kind, each.rest]) == 1]
    many = len({pair.part for pair in unlike})
    if many < 2:
        return None
    again = sum(len(each) > 1 for each in ways.values()) - _STOPS
    if again >= ceil(_SURE_BITS / log2(many)) or _summed(unlike) or _affine(unlike, many):
        return True
    return None


def _summed(pairs: Iterable[Pair]) -> bool:
    """Return whether the part is the sum of the rest, or what is lacking to it."""
    kinds: dict[Hashable, list[Pair]] = defaultdict(list)
    for pair in pairs:
        kinds[pair.kind].append(pair)
    for modulus in _MODULI:
        for way in (1, -1):
            alike = 0
            for group in kinds.values():
                left = {(each.part - way * sum(each.rest)) % modulus for each in group}
                if len(left) > 1 or any(each.part >= modulus for each in group):
                    break
                alike += len(group) - 1
            else:
                if alike >= _ALIKE:
                    return True
    return False


def _affine(pairs: Iterable[Pair], many: int) -> bool:
    """Return whether each bit of the part is a parity of bits of the rest.

    So are the bits of every parity and every cyclic redundancy check, whatever its polynomial.
    """
    basis: dict[int, tuple[int, int]] = {}  # by its highest bit: a rest and its part
    numbers: dict[Hashable, int] = {}
    agreed = 0
    for pair in pairs:
        bits = reduce(lambda all_, one: all_ << 8 | one & 255, pair.rest, 0)
        kind = numbers.setdefault(pair.kind, len(numbers))
        rest, part = bits << 16 | 1 << kind % 16, pair.part
        while rest and (known := basis.get(rest.bit_length())):
            rest, part = rest ^ known[0], part ^ known[1]
        if rest:
            basis[rest.bit_length()] = rest, part
        elif part:
            return False
        else:
            agreed += 1
    return agreed * log2(many) >= _SURE_BITS
