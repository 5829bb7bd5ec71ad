"""The wall's own browser, a real one, stopped as a hang does it: ended, and started anew."""

import os
import shutil
import signal
from contextlib import closing

import pytest

from daq.service.kept_wall import STILL_S, ShownBrowser, WallKeeper, seen_by
from daq.service.own_line import OwnLine
from daq.service.rights.access import Access
from tests.browser.screens import ARGUMENTS, BROWSERS
from tests.groups import run_in
from tests.patience import until
from tests.service.conftest import HandClock
from tests.web.conftest import FakeHub, FakeInbox
from web.app import create_app
from web.serve import serve


@pytest.fixture
def wall_clock():
    return HandClock()


@pytest.fixture
def access(tmp_path, wall_clock):
    return Access(tmp_path, wall_clock)


@pytest.fixture
def line(tmp_path, access):
    with serve(create_app(FakeHub(), FakeInbox(), access=access), "127.0.0.1", 0) as server:
        yield OwnLine(tmp_path, f"http://127.0.0.1:{server.port}")


class Kept:
    """The keeper of a headless browser, by the hand's clock."""

    def __init__(self, line, profile, clock):
        self.pids = []
        self.clock = clock
        found = next(filter(None, map(shutil.which, BROWSERS)))
        self._command = [found, "--headless", "--no-first-run", f"--user-data-dir={profile}"]
        self._line = line
        self.keeper = WallKeeper(self._start, lambda: seen_by(line), lambda: clock.ns / 1e9)

    def _start(self):
        shown = ShownBrowser([*self._command, *ARGUMENTS, self._line.link()], leaves_s=0.2)
        self.pids.append(shown._process.pid)
        return shown

    def passes(self, seconds):
        self.clock.ns += round(seconds * 1e9)
        return self.keeper.turn()

    def close(self):
        self.keeper.end()


@pytest.fixture
def kept(line, tmp_path, wall_clock):
    with closing(Kept(line, tmp_path / "profile", wall_clock)) as made:
        yield made


def test_a_page_that_is_drawn_says_so_and_one_that_is_stopped_is_started_anew(
    kept, access, wall_clock, monkeypatch
):
    # The key's tickets go by the computer's own clock; here that is the hand's.
    monkeypatch.setattr("daq.service.own_line.time.monotonic_ns", lambda: wall_clock.ns)
    assert kept.passes(100) == "browser-starts"
    until(lambda: access.drawn_ms is not None)
    assert kept.passes(STILL_S - 1) == "page-drawn"
    os.killpg(kept.pids[0], signal.SIGSTOP)
    told = access.drawn_ms
    assert kept.passes(STILL_S + 1) == "page-still"
    assert access.drawn_ms > told, "nothing was drawn meanwhile"
    until(lambda: not run_in(kept.pids[0]))
    kept.passes(1)
    assert len(kept.pids) == 2
    until(lambda: access.drawn_ms == 0)
    assert kept.passes(1) == "page-drawn"
