"""Benches that keep where their machine stood, and hands at one."""

from tests.audit.bar import BarBench
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, mill

PLAIN = setup_of(limit=0.025, nod_pivot=150.0, height=400.0)


class Watching:
    """A bench that keeps where its machine stood after each command."""

    def __init__(self, setup, seen) -> None:
        super().__init__(setup)
        self.seen = seen
        self.watch()

    def watch(self):
        self.seen.append(self.shop.machine(self.machine))

    def decide(self, *given):
        found = super().decide(*given)
        self.watch()
        return found


class Bars(Watching, BarBench):
    """The same of a two-gauge bar."""

    def both(self, *given):
        found = super().both(*given)
        self.watch()
        return found


class Watched(Watching, Bench):
    """The same of one gauge."""


def hired(seen, setup, side_mm=0.2, nod_mm=-0.3, **more) -> Machinist:
    return Machinist(Watched(setup, seen), RigidHead(mill(), side_mm, nod_mm), **more)
