"""What the set-up page shows: what is plugged in, what a gauge may be like, what is written yet."""

from dataclasses import dataclass

from daq.words.said import Text


@dataclass(frozen=True, slots=True)
class PortCard:
    """A port: the name that a file gets, and by which gauge's reader it is held, "" for none.

    `own`: the computer's own port, on its pins.
    """

    port: str
    gauge: str
    own: bool


@dataclass(frozen=True, slots=True)
class HeardCard:
    """What came from a port in a moment, read as an example would: its last number as sent.

    `good`, `bad`: frames; `came`: bytes. `say`: why there is no number. `step`: one of its last
    digit, with its unit.
    """

    example: str
    text: str
    unit: str
    good: int
    bad: int
    came: int
    say: Text = None
    step: str = ""


@dataclass(frozen=True, slots=True)
class ExampleCard:
    """A gauge's example: its key, what its frames are, and how its line is set."""

    key: str
    shape: str
    line: str


@dataclass(frozen=True, slots=True)
class WrittenGauge:
    """A gauge that has a file: its key, name, the number on it, and its port."""

    key: str
    name: str
    number: str
    port: str


@dataclass(frozen=True, slots=True)
class MissingPaper:
    """Something that a gauge's papers say and its file does not: its key there, and in words."""

    key: str
    say: Text


@dataclass(frozen=True, slots=True)
class IncompleteGauge:
    """A gauge whose file lacks what its papers say: nothing runs with it before."""

    key: str
    missing: tuple[MissingPaper, ...]


@dataclass(frozen=True, slots=True)
class WrittenMachine:
    """A machine that has a file: its key, its name, and the tolerance that it names for both."""

    key: str
    name: str
    tolerance: str


@dataclass(frozen=True, slots=True)
class SetUpView:
    """`seen`: what goes with whatever is saved. `first`: nobody may set up yet.

    `shop`: whether there is a shop.toml. `open_on`: where an audit is open, before whose end
    nothing is read anew.
    """

    seen: str
    first: bool
    shop: bool
    ports: tuple[PortCard, ...]
    examples: tuple[ExampleCard, ...]
    gauges: tuple[WrittenGauge, ...]
    incomplete: tuple[IncompleteGauge, ...]
    machines: tuple[WrittenMachine, ...]
    open_on: tuple[str, ...]
