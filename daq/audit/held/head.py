"""The head, as it was seen in this audit."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from daq.audit.parts import AxisResponse
from daq.squaring.learned import Learned
from daq.squaring.story import Happened, Seen, Story, then
from daq.squaring.surmise import Guess
from daq.words import AXES, Axis

_WORTH = 0.1
"""A ram with a smaller share is not worth keeping in mind."""


@dataclass(frozen=True)
class HeadSeen:
    """What was read of the head and done to it, and what that taught.

    `story`: what its answer is learned from; the latest sweep is its entries `swept_from` to
    `swept_to`. `learned`: what it starts from, and after `ResponseUpdated` what came out;
    `answers`: what of it is shown. `ram_moved`: what was learned before is void. `backwards`: the
    axes that answered the other way round, and `unsure` those that a stop-at left no nearer: of
    their pivots nothing is taken for known beforehand. `slack_mm`: how far the other axis moved
    since an axis was last read, as a difference on the sweep; so much more may still agree.
    `named`: what was taken last for what may have happened; `swung`: how far the ram is
    taken to be swung from where it was thought to stand, rad.
    """

    story: Story = ()
    swept_from: int = 0
    swept_to: int = 0
    learned: Learned | None = None
    answers: Mapping[Axis, AxisResponse] = field(default_factory=dict)
    ram_moved: bool = False
    backwards: frozenset[Axis] = frozenset()
    unsure: frozenset[Axis] = frozenset()
    slack_mm: Mapping[Axis, float] = field(default_factory=dict)
    named: Guess | None = None
    swung: float = 0.0

    @property
    def is_surprising(self) -> bool:
        """Whether something that was read in this audit did not fit what had been done."""
        odd = any(isinstance(each, Happened) and each.what == "unknown" for each in self.story)
        return odd or bool(self.backwards or self.unsure)

    def then(self, *happened: Seen | Happened) -> "HeadSeen":
        """The same, with what happened told."""
        return replace(self, story=then(self.story, *happened))

    def naming(self, guesses: Sequence[Guess]) -> "HeadSeen":
        """The same, with what may have happened this time: a swung ram, or else the likeliest."""
        rams = (guess for guess in guesses if guess.kind == "swung" and guess.share >= _WORTH)
        named = next(rams, next(iter(guesses), None))
        return self if named is None else replace(self, named=named)

    def taking(self, guess: Guess | None) -> "HeadSeen":
        """The same, with this taken for true: the ram stands otherwise than was thought."""
        if guess is None:
            return self
        return replace(self, swung=self.swung + guess.figure, named=None)

    def reversing(self, axis: Axis | None, known: Learned | None) -> "HeadSeen":
        """The same, with this axis taken for answering the other way round.

        Nothing it taught of the head is kept then, but what was `known` before.
        """
        if axis is None:
            return self
        head = self if self.ram_moved else self.knowing(known)
        return replace(head, backwards=head.backwards | {axis})

    def knowing(self, learned: Learned | None) -> "HeadSeen":
        """The same, with that learned."""
        answers = {} if learned is None else {axis: _answers(learned, axis) for axis in AXES}
        return replace(self, learned=learned, answers=answers)


def _answers(learned: Learned, axis: Axis) -> AxisResponse:
    """How an axis answers, out of all that is known of the head."""
    known = learned.answering
    return AxisResponse(
        known.pivot_mm(axis),
        known.pivot_doubt_mm(axis),
        known.coupling(axis),
        known.coupling_doubt(axis),
    )
