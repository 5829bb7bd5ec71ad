"""The n-th call of a kind fails, once or for ever, under a real service, whatever it is doing.

The kernel denies the call before it is made, as a full or dying disk would. Whatever it was: no row
that was answered for is lost, none that was denied is there, and it is said in a sentence.
"""

import errno
import shutil
import signal
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass, field
from itertools import product
from pathlib import Path

import pytest

from daq.words import SaidTrouble
from tests.cards import READY
from tests.faults.calls import Call
from tests.faults.kept import kept
from tests.faults.recorded import Answered, Heard, Watch, deny_none
from tests.patience import until
from tests.system.daemon import Daemon
from tests.system.shop import Shop

PRESSES = 105
"""Twice so many rows and the log is all but long enough to be put back into the file."""
PAIRS = 6


@dataclass
class Failing:
    """The n-th call of a kind fails, or all from then on."""

    what: str
    nth: int
    for_ever: bool
    wrong: int
    calls: int = 0
    struck: list[Call] = field(default_factory=list)

    def __call__(self, call: Call) -> int:
        if call.what != self.what:
            return 0
        self.calls += 1
        if self.calls != self.nth and not (self.for_ever and self.calls > self.nth):
            return 0
        self.struck.append(call)
        return self.wrong


class Rig:
    """A shop whose service is watched, and a ledger to begin each trial with."""

    def __init__(self, folder: Path) -> None:
        disk = folder / "disk"
        disk.mkdir()
        self.shop = Shop(folder)
        self.shop.data = disk / "data"
        self.watch = Watch(disk)
        self.begun = folder / "begun"
        self.daemon = Daemon(self.shop, forker=self.watch.forker)
        self.daemon.client = Heard(self.watch.record)
        self.daemon.start()
        self.daemon.client.do("open", {"reason": "scheduled"})
        for _ in range(PRESSES):
            self.press()
        self.daemon.kill()
        shutil.copytree(self.shop.data, self.begun)
        self.told = self.answered()

    def close(self) -> None:
        self.watch.deny = deny_none
        self.daemon.kill() if self.daemon.alive else None
        self.watch.close()

    def answered(self) -> list[Answered]:
        return [step for step in self.watch.record if isinstance(step, Answered)]

    def fresh(self, begun: bool) -> None:
        self.watch.deny = deny_none
        self.watch.record[:] = self.told if begun else []
        self.daemon._said.unlink(missing_ok=True)
        shutil.rmtree(self.shop.data, ignore_errors=True)
        if begun:
            shutil.copytree(self.begun, self.shop.data)

    def start(self) -> bool:
        """Whether it serves; if not, it has said why in a sentence."""
        try:
            self.daemon.start()
        except AssertionError:
            said = self.daemon.stderr
            assert said.startswith("headsweep: "), said
            assert "Traceback" not in said, said
            return False
        except SaidTrouble:  # nobody comes in: the pages are there to say why
            assert self.daemon.client.ask("GET", "/healthz").status == 503
            self.daemon.kill()
            return False
        return True

    def press(self) -> bool:
        """A press and its undoing; whether none of them was told not recorded."""
        for kind, payload in (("readied", READY), ("undo", {})):
            answer = self.daemon.client.post(kind, payload)
            assert answer.status in (200, 422, 503), answer
            if answer.status == 503:
                assert answer.body["code"] in ("not-recorded", "not-known")
                return False
        return True

    def held(self) -> None:
        """What was answered is there, what was denied is not; nobody sees a program's insides."""
        assert "Traceback" not in self.daemon.stderr, self.daemon.stderr
        assert kept(self.shop.data, self.answered())


@pytest.fixture(scope="module")
def rig(tmp_path_factory) -> Iterator[Rig]:
    with closing(Rig(tmp_path_factory.mktemp("nth"))) as made:
        yield made


def at_start(rig: Rig, failing: Failing, begun: bool) -> None:
    """Whatever came of it: once the disk is well, the next start records again."""
    rig.fresh(begun)
    rig.watch.deny = failing
    if rig.start():
        rig.press()
        rig.watch.deny = deny_none
        if rig.daemon.client.snapshot()["recording"]["ok"]:
            assert rig.press(), "it was said that it records"
        rig.daemon.kill()
    rig.watch.deny = deny_none
    rig.held()
    assert rig.start()
    rig.press()
    rig.daemon.kill()
    rig.held()


def at_press(rig: Rig, failing: Failing, begun: bool) -> None:
    """Killed as soon as it has denied one: nothing more can be done about what lies in the log."""
    rig.fresh(begun)
    assert rig.start()
    rig.daemon.client.do("open", {"reason": "scheduled"}) if not begun else None
    rig.watch.deny = failing
    all(rig.press() for _ in range(PAIRS))
    rig.daemon.kill()
    rig.held()


def at_end(rig: Rig, failing: Failing, begun: bool) -> None:
    rig.fresh(begun)
    assert rig.start()
    rig.press()
    rig.watch.deny = failing
    rig.daemon.end(signal.SIGTERM)
    rig.held()


def in_recovery(rig: Rig, failing: Failing, begun: bool) -> None:
    """The log could not be flushed once; then this comes."""
    rig.fresh(begun)
    assert rig.start()
    rig.daemon.client.do("open", {"reason": "scheduled"}) if not begun else None
    rig.watch.deny = Failing("sync", 1, False, errno.EIO)
    assert not rig.press()
    rig.watch.deny = failing
    rig.press()
    rig.press()
    rig.watch.deny = deny_none
    until(rig.press)
    rig.daemon.kill()
    rig.held()


FULL, DYING, READ_ONLY = errno.ENOSPC, errno.EIO, errno.EROFS
BEGUN, NEW = True, False

ONCE, FOR_EVER = False, True

SOME = [
    (at_start, NEW, "mkdir", 1, FOR_EVER, FULL),
    (at_start, NEW, "write", 2, ONCE, FULL),
    (at_start, NEW, "sync", 2, FOR_EVER, DYING),
    (at_start, BEGUN, "open", 3, ONCE, READ_ONLY),
    (at_press, BEGUN, "write", 3, FOR_EVER, FULL),
    (at_press, BEGUN, "write", 40, ONCE, DYING),
    (at_press, BEGUN, "sync", 2, ONCE, DYING),
    (at_press, BEGUN, "sync", 2, FOR_EVER, DYING),
    (at_end, BEGUN, "write", 2, FOR_EVER, FULL),
    (at_end, BEGUN, "unlink", 1, ONCE, DYING),
    (in_recovery, BEGUN, "sync", 1, FOR_EVER, DYING),
]
"""Of each moment what is likeliest to go wrong."""

ALL_UP_TO, THEN_EVERY = 10, 7
HOWS = (at_start, at_press, at_end, in_recovery)
WHATS = ("open", "write", "sync", "truncate", "unlink", "mkdir", "rename")


@pytest.mark.parametrize(("how", "begun", "what", "nth", "for_ever", "wrong"), SOME)
def test_a_call_that_fails(rig, how, begun, what, nth, for_ever, wrong):
    failing = Failing(what, nth, for_ever, wrong)
    how(rig, failing, begun)
    assert failing.struck


@pytest.mark.parametrize(
    ("how", "what"),
    [
        (at_end, "rename"),
        *(
            pytest.param(how, what, marks=[pytest.mark.long, pytest.mark.timeout(3600)])
            for how, what in product(HOWS, WHATS)
        ),
    ],
)
def test_one_call_after_the_other_fails(rig, how, what):
    """The first ten of a kind and every seventh then, until there is no such call."""
    for begun in (BEGUN, NEW):
        for for_ever in (ONCE, FOR_EVER):
            nth, struck = 1, True
            while struck:
                failing = Failing(what, nth, for_ever, DYING if what == "sync" else FULL)
                how(rig, failing, begun)
                struck = bool(failing.struck)
                nth += 1 if nth < ALL_UP_TO else THEN_EVERY
