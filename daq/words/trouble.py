"""What went wrong and can be mended by whoever gave the command."""

from daq.words.said import Said


class Trouble(Exception):
    """Its text says what was found, what is allowed and where; nothing else need be shown."""


class SaidTrouble(Trouble):
    """What a screen may show as well: `said` is what there is to say; the text is for a log."""

    def __init__(self, what: Said) -> None:
        """Keep it."""
        super().__init__(str(what))
        self.said = what


class CannotBe(SaidTrouble, ValueError):
    """Raised where a dataclass checks itself: its values cannot be, `said` says why."""
