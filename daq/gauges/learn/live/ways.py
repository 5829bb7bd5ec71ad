"""What is sought of a gauge, what was heard of it in each way it may talk, what was learned."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from daq.gauges.learn.encodings import encodings
from daq.gauges.learn.evidence import Encoding, Evidence, Held, Pieces
from daq.gauges.learn.face import TypedFace
from daq.gauges.learn.live.ear import Heard
from daq.gauges.learn.live.search import SPEEDS, Understood
from daq.gauges.learn.writing import Habits

_STRANGE: Final = 0.05


@dataclass(frozen=True, slots=True)
class Sought:
    """What is known before: the travel, a request, speeds, whether it sends on its key."""

    travel_mm: float
    request: bytes = b""
    key: bool = False
    speeds: tuple[int, ...] = SPEEDS


@dataclass(frozen=True, slots=True)
class LearnedGauge:
    """All that wire and face told.

    `heard` is all that came at the right settings. `others` are encodings that fit as well, and
    read other numbers; `strange`: how many frames that were not read came to each that was.
    """

    found: Understood
    habits: Habits
    encoding: Encoding
    counts_up: bool
    faces: tuple[TypedFace, ...]
    heard: Heard
    others: tuple[Encoding, ...] = ()
    strange: float = 0.0

    @property
    def notes(self) -> tuple[str, ...]:
        """What the person who looks the file through should mind, as comments of the file."""
        found = []
        if not self.encoding.signed:
            found.append("only one sign was on the face: see that the other is read right, too")
        if self.others:
            layouts = ", ".join(str(each.table["layout"]) for each in self.others)
            found.append(f"as well would fit: {layouts}")
        if self.strange > _STRANGE:
            found.append(
                f"{self.strange:.1f} frames that it does not read came to each that it reads: "
                "others', or of a kind that was not seen while it was learned"
            )
        return tuple(found)


@dataclass(frozen=True, slots=True)
class HeardWay:
    """One way in which the gauge may talk, what was heard, and what while each face was typed."""

    found: Understood
    heard: tuple[Heard, ...]
    held: tuple[Pieces, ...] = ()
    fits: tuple[Encoding, ...] = ()

    def evidence(self, faces: Sequence[TypedFace], travel_mm: float) -> Evidence:
        """All of it, with the faces beside."""
        pieces = tuple(piece for each in self.heard for piece in each.pieces)
        paused = max((each.silence_s for each in self.heard), default=0.0) > 0.0
        held = tuple(Held(f, p) for f, p in zip(faces, self.held, strict=True))
        return Evidence(held, pieces, paused, travel_mm)

    @property
    def whole(self) -> Heard:
        """All that was heard, in a row."""
        blocks = (block for each in self.heard for block in each.blocks)
        return replace(self.heard[-1], blocks=tuple(sorted(blocks)))

    def fitted(self, faces: Sequence[TypedFace], travel_mm: float) -> "HeardWay":
        """Return the same with the encodings that say all the faces."""
        return replace(self, fits=tuple(encodings(self.evidence(faces, travel_mm))))

    def more(self, window: Heard, since: Heard) -> "HeardWay":
        """Return the same with what came while one more face was typed, and until then."""
        return replace(self, heard=(*self.heard, since), held=(*self.held, window.pieces))
