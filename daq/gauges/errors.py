"""What keeps a port from being read, or a gauge from being learned."""

from dataclasses import replace

from daq.words import Said, said


class LinkError(Exception):
    """A port cannot be opened, read or trusted: a fault's `code` and what there is to say.

    `say` names the port by its path, for the setup page and the command line; `of` does
    not, for the screens: a path is long, and tells nothing to whoever stands at a machine.
    """

    def __init__(self, code: str, say: Said, in_full: Said | None = None) -> None:
        """Keep the code ("busy", "unplugged", "changed", …) beside what there is to say.

        The path stands in `say` as `it`, where the gauge's name may stand as well, or as
        `port`. `in_full` is for where the port is named, when it says more there.
        """
        self.code = code
        self.say = in_full or say
        self._short = say
        super().__init__(str(self.say))

    def of(self, gauge: str) -> Said:
        """The same with the gauge's name in it, and without the port's."""
        if "it" in self._short.of:
            return replace(self._short, of={**self._short.of, "it": gauge})
        its = replace(self._short, of={**self._short.of, "port": said("its-port")})
        return said("of-gauge", gauge=gauge, say=its)


class LearnError(Exception):
    """A gauge could not be learned; `say` tells why, and what to do."""

    def __init__(self, say: Said) -> None:
        """Keep what there is to say."""
        self.say = say
        super().__init__(str(say))
