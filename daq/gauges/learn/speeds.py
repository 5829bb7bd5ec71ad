"""Which speeds a line may have, from bytes that were heard at some of them.

A line that is sampled twice as often as it sends shows each of its bits twice, whatever it
sends: so few listenings tell the speed, before anything is known of the frames.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

_FOLDED: Final = 0.95
_UNLIKE: Final = 3
"""So many unlike bytes are not alike in all their pairs by chance."""
_RATIOS: Final = (2, 3)


def left(heard: Mapping[int, bytes], speeds: Sequence[int]) -> Iterator[int]:
    """Yield which of the speeds it may still be, in the order given."""
    told = {speed: sent for speed, sent in heard.items() if len(set(sent)) >= _UNLIKE}
    most = max(speeds, default=0)
    for speed, sent in told.items():
        for ratio in _RATIOS:
            if folded(sent, ratio):
                most = min(most, speed // ratio)
    for speed in speeds:
        slower = (
            (sent, ratio)
            for fast, sent in told.items()
            for ratio in _RATIOS
            if fast % speed == 0 and fast // speed % ratio == 0
        )
        if speed <= most and all(folded(sent, ratio) for sent, ratio in slower):
            yield speed


def folded(sent: bytes, ratio: int) -> bool:
    """Return whether bytes look as those of a line do that sends so much slower."""
    return sum(_is_folded(byte, ratio) for byte in sent) >= _FOLDED * len(sent)


def _is_folded(byte: int, ratio: int) -> bool:
    """The start bit and the data bits, lowest first, in groups of one kind."""
    bits = byte << 1
    group = (1 << ratio) - 1
    return all(bits >> at & group in (0, group) for at in range(0, 10 - ratio, ratio))
