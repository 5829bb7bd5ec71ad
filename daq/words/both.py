"""One thing for each of the head's two axes."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Generic, TypeVar

from daq.words.place import AXES, Axis

T = TypeVar("T")
U = TypeVar("U")


@dataclass(frozen=True, slots=True)
class Both(Mapping[Axis, T], Generic[T]):
    """What there is of side to side and of nod: `both[axis]`, in the order of `AXES`."""

    side: T
    nod: T

    @staticmethod
    def of(make: Callable[[Axis], U]) -> "Both[U]":
        """What a function makes of each axis."""
        return Both(make("side"), make("nod"))

    def map(self, change: Callable[[T], U]) -> "Both[U]":
        """What a function makes of each of the two."""
        return Both(change(self.side), change(self.nod))

    def put(self, axis: Axis, value: T) -> "Both[T]":
        """The same with another value for one axis."""
        return Both.of(lambda each: value if each == axis else self[each])

    def __getitem__(self, axis: Axis) -> T:
        """That axis's."""
        return {"side": self.side, "nod": self.nod}[axis]

    def __iter__(self) -> Iterator[Axis]:
        """The axes, side first."""
        return iter(AXES)

    def __len__(self) -> int:
        """Two."""
        return len(AXES)
