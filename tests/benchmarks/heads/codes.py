"""What of a console obedient hands look at, with its sentences as codes: they need no words.

Making the whole page, in words, takes more than half the time of a simulated audit.
"""

from typing import Any, Final

from daq.says import Language
from daq.screens import Console
from daq.words import Said

SEEN: Final = ["step", "title", "detail", "message", "question", "unit", "bolts", "do", "actions"]


class Codes(Language):
    """Says a sentence as its code and what stands in it."""

    def words(self, said: Said | None, names: object = None) -> str:
        """The code and its values; nothing for nothing."""
        return "" if said is None else str(said)


_CODES: Final = Codes("codes", "")


def in_codes(shown: Console) -> dict[str, Any]:
    """The part of a console that hands look at."""
    return {name: _CODES.told(getattr(shown, name)) for name in SEEN}
