"""The shapes a gauge's frames may have: one module a shape, found by scanning this folder.

A shape's module is named as config names the shape and exports one constant,
SHAPE, that satisfies `Shape`. Decoders are pure: bytes in, indications out; no
port, clock or thread may come in here, and no shape imports another. What several
share is in the package `shared`, which is no shape: only modules are.
"""

import importlib
import pkgutil
from collections.abc import Mapping
from typing import Any, Literal, NamedTuple, Protocol, TypeVar, cast

from daq import settings
from daq.words import Unit

Options = TypeVar("Options")


Amiss = Literal["number", "unit", "check", "channel"]
"""What is amiss in frames that are right but for it."""


class Indication(NamedTuple):
    """What one good frame says.

    `text` is the number as the gauge's face shows it: its sign and digits exactly as
    sent and in the order sent, with the decimal sign put in where the wire leaves it out;
    `value` the same as a float in `unit`; `raw` the frame's bytes without its terminator.
    """

    text: str
    value: float
    unit: Unit
    flags: tuple[str, ...]
    raw: bytes


class Decoder(Protocol):
    """Turns the bytes of one opening of a port into indications, however they are split.

    Neither raises for any bytes, takes more time than in proportion to them, or holds back
    more of them than a frame may have.
    """

    @property
    def bad(self) -> int:
        """How many bad frames were skipped so far."""

    @property
    def damaged(self) -> int:
        """How many of them were whole but for their check value."""

    def feed(self, data: bytes) -> list[Indication]:
        """Take the next bytes; return what they complete."""

    def amiss(self, data: bytes) -> Amiss | None:
        """Return what is amiss in all frames of bytes in which no good one was found.

        A "number" that is missing, a "unit" that is not the file's, a "check" value that is
        wrong, or the "channel", which is another; None when the bytes are no frames of this
        kind at all.
        """

    def gap(self) -> None:
        """Hear that the line fell silent: what began before is not continued after.

        A frame that only the silence has completed comes with the next `feed`, which may
        be of no bytes.
        """


class Shape(Protocol[Options]):
    """What a shape's module exports as SHAPE."""

    @property
    def options(self) -> type[Options]:
        """The dataclass of the shape's own keys in the gauge's file."""

    def make(self, options: Options) -> Decoder:
        """Return a decoder that has seen nothing yet."""


def names() -> tuple[str, ...]:
    """Return the shapes there are, sorted."""
    return tuple(sorted(each.name for each in pkgutil.iter_modules(__path__) if not each.ispkg))


def decoder(table: Mapping[str, Any], where: str) -> Decoder:
    """Return a new decoder for a gauge's `frame` table; `where` names the file in messages.

    Raises:
        SettingsError: no such shape, or options it does not understand.
    """
    options = dict(table)
    name = options.pop("shape", None)
    if name not in names():
        known = ", ".join(f'"{each}"' for each in names())
        said = settings.found(name)
        raise settings.SettingsError(
            [f"{where}: frame.shape: found {said}; allowed: one of {known}"]
        )
    module = importlib.import_module(f"{__name__}.{name}")
    shape = cast(Shape[Any], module.SHAPE)
    return shape.make(settings.build(shape.options, options, where, under="frame"))
