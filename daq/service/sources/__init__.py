"""Where takes come from beside the pages: one module a source, found by scanning this folder.

A source's module is named as shop.toml names it and exports one constant, SOURCE, that
satisfies `Source`. What a press asks for is the console's to say (`switchboard`): no source
knows the steps of an audit, and none imports another.
"""

import difflib
import importlib
import pkgutil
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Protocol, TypeVar, cast

from daq import settings
from daq.gauges.config import GaugeConfig
from daq.service.collars import Collars
from daq.service.hub import Hub
from daq.service.switchboard import Recipient, Switchboard
from daq.service.turns import Turns

Options = TypeVar("Options")


class Running(Protocol):
    """A source at work.

    What it lacks here, and while it does, it says through its switchboard; the others go on.
    """

    @property
    def turns(self) -> Turns | None:
        """Those of its own thread, where it has one."""

    def stop(self) -> None:
        """Give back what it holds; no press is heard after that."""


class Source(Protocol[Options]):
    """What a source's module exports as SOURCE."""

    @property
    def options(self) -> type[Options]:
        """The dataclass of the source's own keys in shop.toml."""

    @property
    def actor(self) -> str:
        """What the record calls it."""

    def check(self, options: Options, gauge: GaugeConfig) -> None:
        """Refuse what cannot work with the machine's gauge or with what is installed.

        Raises:
            ValueError: in plain words, what was found and what is allowed.
        """

    def start(self, options: Options, switchboard: Switchboard) -> Running:
        """Begin to hand presses in at the switchboard."""


@dataclass(frozen=True)
class NamedSource:
    """One source of one machine as shop.toml names it."""

    machine: str
    gauge: GaugeConfig
    source: Source[Any]
    options: Any


def names() -> tuple[str, ...]:
    """Return the sources there are, sorted."""
    return tuple(sorted(each.name for each in pkgutil.iter_modules(__path__) if not each.ispkg))


def choose(
    table: Mapping[str, Any], where: str, under: str, gauges: Mapping[str, GaugeConfig]
) -> NamedSource:
    """Return the source of one `[[takes]]` table of the file `where`; `under` is its key there.

    `gauges`: each machine's gauge.

    Raises:
        SettingsError: with every problem of the table.
    """
    options = dict(table)
    machine, name = options.pop("machine", None), options.pop("source", None)
    problems = [
        *_unknown(machine, gauges, f"{where}: {under}.machine"),
        *_unknown(name, names(), f"{where}: {under}.source"),
    ]
    if problems:
        raise settings.SettingsError(problems)
    module = importlib.import_module(f"{__name__}.{name}")
    source = cast(Source[Any], module.SOURCE)
    built = settings.build(source.options, options, where, under=under)
    try:
        source.check(built, gauges[str(machine)])
    except ValueError as error:
        raise settings.SettingsError([f"{where}: {under}.source: {error}"]) from None
    return NamedSource(str(machine), gauges[str(machine)], source, built)


def _unknown(found: object, known: Sequence[str] | Mapping[str, Any], where: str) -> list[str]:
    if isinstance(found, str) and found in known:
        return []
    said = settings.quoted(found)
    near = difflib.get_close_matches(said.strip("'"), list(known), 1)
    hint = f"; nearest known: {near[0]!r}" if near else ""
    return [f"{where}: found {said}; allowed: {', '.join(sorted(known))}{hint}"]


class Sources:
    """All the sources of a service, at work."""

    def __init__(
        self, chosen: Sequence[NamedSource], hub: Hub, inbox: Recipient, collars: Collars
    ) -> None:
        """Nothing is heard before `start`. What the arm passes goes to `collars`."""
        self._chosen = [
            (c, Switchboard(c.machine, c.gauge, hub, inbox, c.source.actor, collars))
            for c in chosen
        ]
        self._running: list[Running] = []
        self._started: list[Switchboard] = []

    def start(self) -> None:
        """Begin; the inbox must be at work."""
        for chosen, switchboard in self._chosen:
            switchboard.start()
            self._started.append(switchboard)
            self._running.append(chosen.source.start(chosen.options, switchboard))

    @property
    def turns(self) -> dict[str, Turns]:
        """The threads that hear presses and hand them in."""
        found = {}
        for switchboard, running in zip(self._started, self._running, strict=True):
            found[f"takes-{switchboard.machine}"] = switchboard.turns
            if running.turns is not None:
                found[f"pins-{switchboard.machine}"] = running.turns
        return found

    def stop(self) -> None:
        """Hear no more presses."""
        for running in self._running:
            running.stop()
        for switchboard in self._started:
            switchboard.stop()

    def join(self) -> None:
        """Wait for the last answers; to be called once the inbox has stopped."""
        for switchboard in self._started:
            switchboard.join()
