"""What keeps a port from being read, or a gauge from being learned."""

from typing import Final

PORT: Final = "{port}"
"""Stands in a sentence where it names the port."""


class LinkError(Exception):
    """A port cannot be opened, read or trusted: a fault's `code` and a plain sentence.

    `say` names the port by its path, for the setup page and the command line; `of` does
    not, for the screens: a path is long, and tells nothing to whoever stands at a machine.
    """

    def __init__(self, code: str, say: str, port: str, in_full: str = "") -> None:
        """Keep the code ("busy", "unplugged", "changed", …) beside the sentence.

        `in_full` is the sentence for where the port is named, when it says more there.
        """
        self.code = code
        self.say = (in_full or say).replace(PORT, port)
        self._short = say
        super().__init__(self.say)

    def of(self, gauge: str) -> str:
        """The sentence with the gauge's name in it, and without the port's."""
        if self._short.startswith(PORT):
            return gauge + self._short.removeprefix(PORT)
        return f"{gauge}: {self._short.replace(PORT, 'its port')}"


class LearnError(Exception):
    """A gauge could not be learned; the message says why, and what to do."""
