"""What keeps a port from being read, or a gauge from being learned."""


class LinkError(Exception):
    """A port cannot be opened, read or trusted: a fault's `code` and a plain sentence."""

    def __init__(self, code: str, say: str) -> None:
        """Keep the code ("busy", "unplugged", "changed", …) beside the sentence."""
        super().__init__(say)
        self.code = code
        self.say = say


class LearnError(Exception):
    """A gauge could not be learned; the message says why, and what to do."""
