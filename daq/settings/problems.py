"""What is wrong with a table, all of it at once."""

from collections.abc import Sequence

from daq.words import Trouble


class SettingsError(Trouble, ValueError):
    """A file or table cannot be used; `problems` has one plain line for each reason."""

    def __init__(self, problems: Sequence[str]) -> None:
        """Join the problems, a line each."""
        super().__init__("\n".join(problems))
        self.problems = tuple(problems)
