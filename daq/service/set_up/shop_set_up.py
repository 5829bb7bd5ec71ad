"""What the set-up page asks: what is there, and what is to be written."""

import datetime
import tomllib
from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Final, Literal, TypeVar

from daq.gauges.config import from_table
from daq.service.files import ShopFiles, shipped, what_is_good
from daq.service.machine_file import EXAMPLE
from daq.service.read_anew import ReadAnew
from daq.service.rights.access import printable
from daq.service.set_up.folder import ConfigFolder, key_of
from daq.service.set_up.gaps import GAUGES, PAPERS, Paper, incomplete, lacking
from daq.service.set_up.gauge_text import GivenGauge, examples, gauge_text
from daq.service.set_up.heard import Ears
from daq.service.set_up.learning import Learning
from daq.service.set_up.machine_text import GivenMachine, machine_text
from daq.service.set_up.shop_text import shop_text
from daq.service.set_up.text import NotChangedError, changed, put_in
from daq.words import Said, SaidTrouble, said
from daq.words.set_up import (
    ExampleCard,
    IncompleteGauge,
    MissingPaper,
    SetUpView,
    WrittenGauge,
    WrittenMachine,
)

T = TypeVar("T", GivenGauge, GivenMachine)

_SHOP: Final = "shop.toml"
_KEYS: Final[Mapping[str, tuple[str, str]]] = {
    "tolerance": ("machines", "tolerance"), "port": (GAUGES, "line.port"),
    **{key: (GAUGES, key) for key in PAPERS},
}  # fmt: skip


@dataclass(frozen=True)
class ChangeAsked:
    """One value of a file: a machine's tolerance by name, a gauge's port, what its file lacks."""

    what: Literal["tolerance", "port"] | Paper
    key: str
    value: str


@dataclass(frozen=True)
class SavedFile:
    """A file is there now: its key, and what goes with whatever is saved next.

    `missing`: what a gauge's papers say and its file does not.
    """

    key: str
    seen: str
    missing: tuple[MissingPaper, ...] = ()


class ShopSetUp:
    """One shop's set-up; any thread may ask."""

    def __init__(
        self,
        folder: Path,
        running: ShopFiles,
        today: Callable[[], str],
        anew: ReadAnew,
    ) -> None:
        """`running`: what the service goes by now; `anew`: what has them read anew."""
        self._folder = ConfigFolder(folder)
        self._today = today
        self.anew = anew
        self._texts = examples(shipped())
        self._tables = {key: tomllib.loads(text) for key, text in self._texts.items()}
        self._examples = {key: from_table(table, key) for key, table in self._tables.items()}
        self.ears = Ears(running.used_gauges, self._examples)
        self.learning = Learning(self._folder, self.ears)

    def view(self, *, first: bool) -> SetUpView:
        """Everything the page begins with; `first`: nobody may set up yet."""
        seen = self.seen
        there = what_is_good(self._folder.path)
        return SetUpView(
            seen,
            first,
            (self._folder.path / _SHOP).exists(),
            self.ears.ports(),
            tuple(self._example(key) for key in self._examples),
            tuple(
                WrittenGauge(key, gauge.name, gauge.serial_number, gauge.line.port)
                for key, gauge in there.gauges.items()
                if not key.startswith(EXAMPLE)
            ),
            tuple(
                IncompleteGauge(key, _missing(keys))
                for key, keys in incomplete(there.amiss).items()
                if not key.startswith(EXAMPLE)
            ),
            tuple(
                WrittenMachine(key, each.name, each.tolerance)
                for key, each in there.machines.items()
            ),
            self.anew.open_on,
        )

    @property
    def seen(self) -> str:
        """What the files are now."""
        return self._folder.as_of()

    @property
    def missing(self) -> tuple[Literal["shop", "gauge", "machine", "amiss"], ...]:
        """What a shop needs and this one has not; "amiss": a file that is there has a mistake."""
        there = what_is_good(self._folder.path)
        lacks: dict[Literal["shop", "gauge", "machine", "amiss"], bool] = {
            "shop": not (self._folder.path / _SHOP).exists(),
            "gauge": not there.gauges,
            "machine": not there.machines,
            "amiss": any(each.path.is_file() for each in there.amiss),
        }
        return tuple(what for what, so in lacks.items() if so)

    def shop(self, name: str, language: str, seen: str) -> SavedFile:
        """Write shop.toml, where there is none; `language`: the shop's, by its tag.

        Errors as of `ConfigFolder.put`.
        """
        if (self._folder.path / _SHOP).exists():
            return SavedFile(_SHOP, seen)
        text = (shipped() / _SHOP).read_text(encoding="utf-8")
        text = shop_text(printable(name), language, text)
        return SavedFile(_SHOP, self._folder.put(_SHOP, text, seen))

    def gauge(self, given: GivenGauge, seen: str) -> SavedFile:
        """Write a new gauge's file.

        Raises:
            SaidTrouble: there is no such example, a name is missing, or as `ConfigFolder.put`.
        """
        if given.example not in self._texts:
            raise SaidTrouble(said("set-up-no-example", example=given.example))
        given = _named(given, "name", "number", "port", "resolution")
        key = self._folder.free(GAUGES, key_of(given.name, "gauge"))
        text, table = self._texts[given.example], self._tables[given.example]
        made = gauge_text(given, text, table, self._today())
        return replace(self._new(GAUGES, key, made, seen), missing=_missing(lacking(made)))

    def machine(self, given: GivenMachine, words: Callable[[Said], str], seen: str) -> SavedFile:
        """Write a new machine's file, which names things in these words.

        Errors as of `put`, and as a gauge's.
        """
        given = _named(given, "name", "radius")
        key = self._folder.free("machines", key_of(given.name, "machine"))
        return self._new("machines", key, machine_text(given, self._today(), words), seen)

    def change(self, asked: ChangeAsked, seen: str) -> SavedFile:
        """Change one value of a file, or put in what a gauge's lacks, and nothing else of it.

        Raises:
            SaidTrouble: there is no such file, or it says it in a way of its own.
        """
        kind, path = _KEYS[asked.what]
        name = f"{kind}/{asked.key}.toml"
        if asked.key != key_of(asked.key, ""):
            raise SaidTrouble(said("set-up-no-file", file=name))
        try:
            text = self._folder.text(name)
            if asked.what in PAPERS:
                text = put_in(text, path, _paper(asked))
            else:
                text = changed(text, {path: asked.value})
        except (OSError, ValueError):
            raise SaidTrouble(said("set-up-no-file", file=name)) from None
        except NotChangedError:
            raise SaidTrouble(said("set-up-by-hand", file=name, key=path)) from None
        return SavedFile(asked.key, self._folder.put(name, text, seen))

    def _new(self, kind: str, key: str, text: str, seen: str) -> SavedFile:
        return SavedFile(key, self._folder.put(f"{kind}/{key}.toml", text, seen))

    def _example(self, key: str) -> ExampleCard:
        table: dict[str, Any] = self._tables[key]
        line = self._examples[key].line
        spoken = f"{line.baud} {line.bits}{line.parity[0].upper()}{line.stop}"
        return ExampleCard(key, str(table["frame"]["shape"]), spoken)


def _missing(keys: Iterable[Paper]) -> tuple[MissingPaper, ...]:
    return tuple(MissingPaper(key, said("set-up-paper", what=key)) for key in keys)


def _paper(asked: ChangeAsked) -> str | datetime.date:
    """What is put in: a day is one; what cannot be read stays text, and the reader says so."""
    text = printable(asked.value)
    if asked.what == "calibration_due":
        with suppress(ValueError):
            return datetime.date.fromisoformat(text)
    return text


def _named(given: T, *must: str) -> T:
    """The same, each text without what a file, a screen or a terminal could not show.

    Raises:
        SaidTrouble: one that must be there is not.
    """
    texts: dict[str, Any] = {k: printable(v) for k, v in vars(given).items() if isinstance(v, str)}
    for key in must:
        if not texts[key]:
            raise SaidTrouble(said("set-up-missing", what=key))
    return replace(given, **texts)
