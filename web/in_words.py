"""What screens and programs are told, in words; those of a machine's pages are made once."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from daq.says import Language
from daq.service.hub import Hub
from daq.words import Snapshot

Pages = Mapping[str, Any]
Names = Mapping[str, str]


class InWords:
    """One language's words for what the hub shows; any thread may ask.

    A page has some hundred sentences, and whoever comes, looks or connects again asks for it:
    they are made when the pages are others than those told last, or people's names are.
    """

    def __init__(self, hub: Hub, says: Language) -> None:
        """Nothing is made before it is asked for."""
        self._hub = hub
        self._says = says
        self._made: dict[str, tuple[Pages, Names, Pages]] = {}

    def told(self, shown: object) -> Any:  # noqa: ANN401 - JSON
        """A JSON-ready copy of what is shown, in words, with people's names."""
        if not isinstance(shown, Snapshot):
            return self._says.told(shown, self._hub.people)
        rest = self._says.told(replace(shown, pages={}), self._hub.people)
        return {**rest, "pages": self._pages(shown)}

    def pages(self, machine: str) -> Pages:
        """A machine's pages as they are now; not to be changed."""
        return self._pages(self._hub.snapshot(machine))

    def _pages(self, snapshot: Snapshot) -> Pages:
        people = self._hub.people
        of, names, told = self._made.get(snapshot.machine, (None, None, {}))
        if of is not snapshot.pages or names != people:
            told = self._says.told(snapshot.pages, people)
            self._made[snapshot.machine] = snapshot.pages, people, told
        return told
