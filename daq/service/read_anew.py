"""Reading the shop's files anew: the service ends and begins once more in the same process."""

from collections.abc import Callable

from daq.audit.state import Shop


class ReadAnew:
    """Asked for by a page; any thread may.

    `asked`: the service that ends now is to be begun again, by files read anew.
    """

    def __init__(self, shop: Callable[[], Shop]) -> None:
        """`shop`: the latest fold."""
        self._shop = shop
        self.asked = False
        self.when_asked: Callable[[], None] = lambda: None
        """Called once it is asked for; it begins the end and does not wait for it."""

    @property
    def open_on(self) -> tuple[str, ...]:
        """The machines with an open audit: a new start would have each of them read again."""
        machines = self._shop().machines.items()
        return tuple(key for key, machine in machines if machine.job is not None)

    def ask(self) -> tuple[str, ...]:
        """Begin once more, unless an audit is open; return on which machines one is."""
        open_on = self.open_on
        if not open_on and not self.asked:
            self.asked = True
            self.when_asked()
        return open_on
