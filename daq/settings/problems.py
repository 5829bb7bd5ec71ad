"""What is wrong with a table, all of it at once."""

from collections.abc import Sequence

from daq.words import Said, SaidTrouble, said


class SettingsError(SaidTrouble, ValueError):
    """A file or table cannot be used; `problems` has one line for each reason.

    A line may be handed in as a text where only whoever wrote the file reads it.
    """

    def __init__(self, problems: Sequence[Said | str]) -> None:
        """Keep them, and all of them as one, a line each."""
        told = (said("in-their-words", words=p) if isinstance(p, str) else p for p in problems)
        self.problems = tuple(told)
        super().__init__(_lines(self.problems))

    def __str__(self) -> str:
        """The codes and what stands in them, a line each."""
        return "\n".join(map(str, self.problems))


def _lines(problems: Sequence[Said]) -> Said:
    """All of them as one, halved and halved again: a body may have any number."""
    if len(problems) < 2:
        return problems[0] if problems else said("in-their-words", words="")
    half = len(problems) // 2
    return said("lines", first=_lines(problems[:half]), rest=_lines(problems[half:]))
