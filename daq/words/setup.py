"""What the setup page shows: gauges with wires and papers, machines, disk and ledger, the shop.

Numbers are texts with their unit by now; what is said becomes words where it is shown.
"""

from dataclasses import dataclass

from daq.words.said import Person, Said, Text


@dataclass(frozen=True, slots=True)
class Fact:
    """One line of a file: its key there, what people call it, and its value with its unit."""

    key: str
    say: Text
    value: Text


@dataclass(frozen=True, slots=True)
class RawBytes:
    """Some bytes of a wire: in hexadecimal, and as text with a dot for what is none."""

    hex: str
    text: str


@dataclass(frozen=True, slots=True)
class CheckCard:
    """The latest check of a gauge against known lengths."""

    day: str
    passed: bool
    span: str
    allowed: str
    done_by: Person
    say: Said


@dataclass(frozen=True, slots=True)
class WireCard:
    """One opening of a gauge's port: counts, the last good frames (newest last), the last bytes.

    `damaged` of the bad ones were whole but for their check value. `last_bad` are the bytes at
    whose end a frame was last counted as bad.
    """

    good: int
    bad: int
    damaged: int
    frames: tuple[RawBytes, ...]
    last: RawBytes | None
    last_bad: RawBytes | None


@dataclass(frozen=True, slots=True)
class GaugeCard:
    """One gauge: its status in words, its file's facts, its papers and its wire.

    `code` is "ok", a fault's name, or "not-read" for a gauge that no machine names;
    it then has no wire. `warnings` leave its number good.
    """

    key: str
    name: str
    code: str
    say: Said
    warnings: tuple[Said, ...]
    facts: tuple[Fact, ...]
    check: CheckCard | None
    wire: WireCard | None


@dataclass(frozen=True, slots=True)
class FactGroup:
    """Facts that belong together under a heading; `note` says what goes for all of them."""

    key: str
    say: Text
    note: Text
    facts: tuple[Fact, ...]


@dataclass(frozen=True, slots=True)
class MachineCard:
    """One machine: its file's values, each axis's, and what was learned of its head so far."""

    key: str
    name: str
    facts: tuple[Fact, ...]
    groups: tuple[FactGroup, ...]


@dataclass(frozen=True, slots=True)
class ShopCard:
    """What reports show of the shop, and the papers of its tools and rings."""

    facts: tuple[Fact, ...]
    groups: tuple[FactGroup, ...]


@dataclass(frozen=True, slots=True)
class LedgerCard:
    """Where the ledger ends (`rows` is the last row's number, `head` its hash) and its disk.

    `problem` says why the ledger or the disk cannot be relied on, and is None otherwise.
    """

    rows: int
    head: str
    room: Text
    problem: Text


@dataclass(frozen=True, slots=True)
class FileCard:
    """A file with mistakes, or a folder that should hold some: its path, a line a mistake."""

    file: str
    problems: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class SetupView:
    """Everything the setup page shows; `amiss`: the files that cannot be used."""

    gauges: tuple[GaugeCard, ...]
    machines: tuple[MachineCard, ...]
    ledger: LedgerCard
    shop: ShopCard
    amiss: tuple[FileCard, ...]
