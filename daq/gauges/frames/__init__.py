"""The shapes a gauge's frames may have: one module a shape, found by scanning this folder.

A shape's module is named as config names the shape and exports one constant,
SHAPE, that satisfies `Shape`. Decoders are pure: bytes in, indications out; no
port, clock or thread may come in here, and no shape imports another.
"""

import importlib
import pkgutil
from collections.abc import Mapping
from typing import Any, Literal, NamedTuple, Protocol, TypeVar, cast

from daq import settings

Options = TypeVar("Options")


class Indication(NamedTuple):
    """What one good frame says.

    `text` is the number's sign and digits exactly as sent, in the order sent; `value`
    the same as a float in `unit`; `raw` the frame's bytes without its terminator.
    """

    text: str
    value: float
    unit: Literal["mm", "in"]
    flags: tuple[str, ...]
    raw: bytes


class Decoder(Protocol):
    """Turns the bytes of one opening of a port into indications, however they are split."""

    @property
    def bad(self) -> int:
        """How many bad frames were skipped so far."""

    def feed(self, data: bytes) -> list[Indication]:
        """Take the next bytes; return what they complete."""

    def gap(self) -> None:
        """Hear that the line fell silent: what began before is not continued after."""


class Shape(Protocol[Options]):
    """What a shape's module exports as SHAPE."""

    @property
    def options(self) -> type[Options]:
        """The dataclass of the shape's own keys in the gauge's file."""

    def make(self, options: Options) -> Decoder:
        """Return a decoder that has seen nothing yet."""


def names() -> tuple[str, ...]:
    """Return the shapes there are, sorted."""
    return tuple(sorted(module.name for module in pkgutil.iter_modules(__path__)))


def decoder(table: Mapping[str, Any], where: str) -> Decoder:
    """Return a new decoder for a gauge's `frame` table; `where` names the file in messages.

    Raises:
        SettingsError: no such shape, or options it does not understand.
    """
    options = dict(table)
    name = options.pop("shape", None)
    if name not in names():
        known = ", ".join(f'"{each}"' for each in names())
        found = "nothing" if name is None else f'"{name}"'
        raise settings.SettingsError(
            [f"{where}: frame.shape: found {found}; allowed: one of {known}"]
        )
    module = importlib.import_module(f"{__name__}.{name}")
    shape = cast(Shape[Any], module.SHAPE)
    return shape.make(settings.build(shape.options, options, where, under="frame"))
