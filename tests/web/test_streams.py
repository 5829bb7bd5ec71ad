"""The thread of all streams, by a clock of its own: what it tells whom, and when."""

from contextlib import ExitStack
from dataclasses import replace

import pytest

from daq.says import language
from daq.service.turns import STILL_NS
from daq.words import said
from web.in_words import InWords
from web.settling import Settling
from web.stream import BEAT_S
from web.streams import Streams

MACHINE = "practice-mill"


class Line:
    """A connection that takes what it is offered, or does not while it is `full`."""

    def __init__(self):
        self.full = False
        self.got = []

    def offer(self, data):
        if not self.full:
            self.got.append(data)
        return not self.full

    def names(self):
        """The events of each piece since the last call, by name."""
        got, self.got = self.got, []
        return [
            [line[7:] for line in piece.decode().splitlines() if line.startswith("event: ")]
            for piece in got
        ]


class Quiet(Streams):
    """Streams whose clock goes on by what is waited for."""

    def __init__(self, hub):
        self.now_s = 100.0
        super().__init__(hub, Settling(), InWords(hub, language()), lambda: self.now_s)

    def _wait(self, timeout_s):
        self.now_s += 0.0 if self._due else timeout_s
        return super()._wait(0.0)


@pytest.fixture
def streams(hub):
    return Quiet(hub)


def begun(streams, opened):
    follower, line = opened.enter_context(streams.join(MACHINE)), Line()
    follower.begin(line, False)
    return line


def test_a_quiet_stream_beats_and_keeps_the_age_true(streams, hub, reading):
    hub.number = reading
    with ExitStack() as opened:
        line = begun(streams, opened)
        told = []
        while len(told) < 4:
            streams.turn()
            told += [(round(streams.now_s - 100.0, 6), names) for names in line.names()]
    assert told == [(n * BEAT_S, ["beat", "live"]) for n in (1, 2, 3, 4)]


def test_a_change_is_made_into_text_once_for_all_screens(streams, hub, reading, scenes):
    with ExitStack() as opened:
        lines = [begun(streams, opened) for _ in range(3)]
        asked, snapshot = [], hub.snapshot
        hub.snapshot = lambda machine: asked.append(machine) or snapshot(machine)
        hub.publish(live=reading, snapshot=scenes["move"])
        streams.turn()
        (piece,) = {line.got[0] for line in lines}
        assert (len(asked), piece.count(b"event: ")) == (1, 2)
        assert [line.names() for line in lines] == 3 * [[["snapshot", "live"]]]


def test_a_screen_that_is_behind_gets_the_latest_of_what_it_missed_and_no_queue(
    streams, hub, reading, scenes
):
    with ExitStack() as opened:
        slow, other = begun(streams, opened), begun(streams, opened)
        slow.full = True
        for n in range(1, 40):
            hub.publish(live=replace(reading, n=n), snapshot=scenes["move"])
            streams.turn()
            streams.now_s += 0.04
        assert (slow.names(), len(other.names())) == ([], 39)
        slow.full = False
        hub.number = replace(reading, n=99)
        streams.turn()
        (piece,) = slow.got
        assert slow.names() == [["snapshot", "beat", "live"]]
        assert b'"n":99' in piece


def test_a_screen_that_has_just_come_misses_nothing(streams, hub, scenes):
    with streams.join(MACHINE) as follower:
        assert b'"step":"idle"' in streams.first(MACHINE)
        hub.publish(snapshot=scenes["move"])
        streams.turn()
        line = Line()
        follower.begin(line, False)
        streams.turn()
        assert line.names() == [["snapshot", "beat", "live"]]


def test_each_screen_is_told_in_its_own_language(streams, hub, scenes):
    page = {**scenes["move"].pages["wall"], "title": said("live")}
    hub.publish(snapshot=replace(scenes["move"], pages={"wall": page}))
    with ExitStack() as opened:
        for says in (language("en"), language("es")):
            follower, line = opened.enter_context(streams.join(MACHINE, says)), Line()
            follower.begin(line, False)
            hub.publish(snapshot=hub.current)
            streams.turn()
            title = f'"title":"{says.words(said("live"))}"'.encode()
            assert title in streams.first(MACHINE, says) and title in line.got[0]


def test_recording_that_stands_still_is_told_though_nobody_tells_of_it(streams, hub):
    with ExitStack() as opened:
        line = begun(streams, opened)
        for hub.held in (True, False):
            streams.turn()
            streams.turn()
            assert [names[:1] for names in line.names()] == [["snapshot"], ["beat"]]


def test_nobody_follows_a_machine_that_its_last_screen_has_left(streams, hub, reading):
    with streams.join(MACHINE):
        hub.publish(live=reading)
    hub.publish(live=reading)
    assert (streams._groups, streams._due.keys() - {MACHINE}) == ({}, set())
    streams.turn()


def test_health_tells_of_streams_that_stand_still(client, app, streams):
    shared = app.extensions["headsweep"]
    app.extensions["headsweep"] = replace(shared, streams=streams)
    assert client.get("/healthz").status_code == 200
    streams.turn()
    streams.now_s += STILL_NS / 1e9
    assert client.get("/healthz").status_code == 503
