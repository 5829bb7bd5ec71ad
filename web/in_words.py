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
    """The words for what the hub shows, in any language; any thread may ask.

    A page has some hundred sentences, and whoever comes, looks or connects again asks for it:
    they are made when the pages are others than those told last, or people's names are.
    """

    def __init__(self, hub: Hub, says: Language) -> None:
        """Nothing is made before it is asked for; `says` is spoken where no other is named."""
        self._hub = hub
        self._says = says
        self._made: dict[tuple[str, Language], tuple[Pages, Names, Pages]] = {}

    def told(self, shown: object, says: Language | None = None) -> Any:  # noqa: ANN401 - JSON
        """A JSON-ready copy of what is shown, in words, with people's names."""
        says = says or self._says
        if not isinstance(shown, Snapshot):
            return says.told(shown, self._hub.people)
        rest = says.told(replace(shown, pages={}), self._hub.people)
        return {**rest, "pages": self._pages(shown, says)}

    def pages(self, machine: str, says: Language | None = None) -> Pages:
        """A machine's pages as they are now; not to be changed."""
        return self._pages(self._hub.snapshot(machine), says or self._says)

    def _pages(self, snapshot: Snapshot, says: Language) -> Pages:
        people, key = self._hub.people, (snapshot.machine, says)
        of, names, told = self._made.get(key, (None, None, {}))
        if of is not snapshot.pages or names != people:
            told = says.told(snapshot.pages, people)
            self._made[key] = snapshot.pages, people, told
        return told
