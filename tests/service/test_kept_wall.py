"""When the wall's browser is started and ended, by a clock of its own."""

import os
import signal
import threading

import pytest

from daq.cli import main
from daq.service import kept_wall, own_line
from daq.service.clock import SystemClock
from daq.service.kept_wall import (
    AGAIN_S,
    FIRST_S,
    STILL_S,
    ShownBrowser,
    WallKeeper,
    WallSeen,
    seen_by,
)
from daq.service.own_line import OwnLine
from daq.service.rights.access import Access
from daq.words import SaidTrouble
from tests.entry import ticket
from tests.groups import run_in
from tests.patience import until
from tests.web.conftest import FakeHub, FakeInbox
from web.app import create_app
from web.serve import serve

STANDS_STILL = 'trap "" TERM; echo up; while :; do sleep 100; done'


class Wall:
    """A wall whose browser, page and service do as the test says."""

    def __init__(self):
        self.now_s = 1000.0
        self.drawn_s = None
        self.answers = WallSeen()
        self.started, self.ended = [], []
        self.there = True
        self.keeper = WallKeeper(self.start, self.ask, lambda: self.now_s)

    def start(self):
        self.there, self.drawn_s = True, None
        self.started.append(self.now_s)
        return self

    def end(self):
        self.ended.append(self.now_s)

    def ask(self):
        if self.answers is None or not self.answers.asked or self.drawn_s is None:
            return self.answers
        return WallSeen(self.now_s - self.drawn_s)

    def passes(self, seconds, *, drawn=False):
        """A second at a time."""
        for _ in range(round(seconds)):
            self.now_s += 1
            if drawn:
                self.drawn_s = self.now_s
            self.keeper.turn()


@pytest.fixture
def wall():
    return Wall()


def test_a_browser_is_started_once_the_service_answers(wall):
    wall.answers = None
    wall.passes(300)
    assert wall.started == []
    wall.answers = WallSeen()
    wall.passes(1)
    assert len(wall.started) == 1


def test_a_page_that_is_drawn_stays_and_one_that_is_not_is_started_anew(wall):
    wall.passes(1000, drawn=True)
    assert (len(wall.started), wall.ended) == (1, [])
    wall.passes(STILL_S)
    assert wall.ended == []
    wall.passes(2)
    assert (len(wall.started), len(wall.ended)) == (2, 1)


def test_the_first_page_has_longer(wall):
    wall.passes(FIRST_S + 1)
    assert wall.ended == []
    wall.passes(1)
    assert len(wall.ended) == 1


def test_a_service_that_does_not_answer_ends_no_page(wall):
    wall.passes(10, drawn=True)
    for answers in (None, WallSeen(asked=False)):
        wall.answers = answers
        wall.passes(1000)
    assert wall.ended == []
    wall.answers, wall.drawn_s = WallSeen(), None  # started anew, and the page finds it again
    wall.passes(STILL_S)
    wall.passes(100, drawn=True)
    assert (len(wall.started), wall.ended) == (1, [])


def test_what_an_earlier_browser_drew_counts_for_none_after_it(wall):
    wall.passes(10, drawn=True)
    before = wall.drawn_s
    wall.passes(STILL_S + 2)
    wall.drawn_s = before
    wall.passes(STILL_S + 5)
    assert len(wall.started) == 2, "the first page still has its time"


def test_one_that_ends_by_itself_is_started_anew_and_not_all_the_time(wall):
    wall.passes(100, drawn=True)
    wall.there = False
    wall.passes(1)
    assert len(wall.started) == 2
    for _ in range(50):
        wall.there = False
        wall.passes(1)
    assert len(wall.started) <= 2 + 50 / AGAIN_S


def test_a_browser_that_heeds_nothing_is_ended_with_all_it_started():
    command = ["sh", "-c", f"sh -c '{STANDS_STILL}' & {STANDS_STILL}"]
    shown = ShownBrowser(command, leaves_s=0.05)
    assert shown.there
    group = shown._process.pid
    shown._process.send_signal(signal.SIGSTOP)
    shown.end()
    assert not shown.there
    until(lambda: not run_in(group))
    shown.end()


@pytest.fixture
def access(tmp_path):
    return Access(tmp_path, SystemClock())


@pytest.fixture
def served(access):
    with serve(create_app(FakeHub(), FakeInbox(), access=access), "127.0.0.1", 0) as server:
        yield f"http://127.0.0.1:{server.port}"


def test_the_service_tells_the_own_wall_alone_how_long_ago_it_was_drawn(access, served, tmp_path):
    line = OwnLine(tmp_path, served)
    assert seen_by(line) == WallSeen(None)
    assert line.post("/api/wall/drawn") == {}
    assert 0 <= seen_by(line).since_s < 60


def test_a_key_that_is_not_the_services_is_said(served, tmp_path_factory):
    other = tmp_path_factory.mktemp("other")
    Access(other, SystemClock())
    with pytest.raises(SaidTrouble):
        seen_by(OwnLine(other, served))


def test_without_a_record_nobody_is_asked_and_nothing_is_expected(tmp_path, access):
    with serve(create_app(FakeHub(), FakeInbox()), "127.0.0.1", 0) as server:
        line = OwnLine(tmp_path, f"http://127.0.0.1:{server.port}")
        assert seen_by(line) == WallSeen(asked=False)
    assert seen_by(line) is None


def test_a_page_of_anybody_else_counts_for_nothing(access, served, tmp_path):
    app = create_app(FakeHub(), FakeInbox(), access=access)
    client = app.test_client()
    assert client.post("/api/wall/drawn", json={}).status_code == 403
    client.get(f"/own?ticket={ticket(tmp_path)}")
    assert client.post("/api/wall/drawn", json={}).status_code == 403, "its page's token is missing"
    assert access.drawn_ms is None


@pytest.fixture
def heeding():
    """Whatever heeds SIGTERM and SIGINT meanwhile."""
    before = {number: signal.getsignal(number) for number in (signal.SIGTERM, signal.SIGINT)}
    yield
    for number, handler in before.items():
        signal.signal(number, handler)


def test_the_command_starts_a_browser_with_a_fresh_link_and_ends_it_with_itself(
    access, served, heeding, tmp_path, monkeypatch
):
    links = tmp_path / "links"
    links.touch()
    monkeypatch.setattr(kept_wall, "LOOK_S", 0.01)
    port = served.rpartition(":")[2]
    browser = ["sh", "-c", 'echo $$ "$2" >"$1"; exec sleep 1000', "browser", str(links)]
    asked = ["wall", "--keep", "--data", str(tmp_path), "--listen", f"0.0.0.0:{port}"]

    def then_end():
        until(lambda: links.read_text().endswith("\n"))
        os.kill(os.getpid(), signal.SIGTERM)

    ending = threading.Thread(target=then_end)
    ending.start()
    assert main([*asked, "--", *browser]) == 0
    ending.join()
    pid, link = links.read_text().split()
    assert link.startswith(f"{served}/own?ticket=")
    with pytest.raises(ProcessLookupError):
        os.kill(int(pid), 0)


def test_a_line_is_to_an_address_of_ours(tmp_path):
    with pytest.raises(SaidTrouble):
        OwnLine(tmp_path, "ftp://127.0.0.1")
    assert own_line.OwnLine(tmp_path, "http://127.0.0.1/")._port == 80
