"""Whether the run before this one was ended, cut off with the whole computer, or killed alone."""

import dataclasses
import datetime
import json
import os
from pathlib import Path

import pytest

from daq.service.alive import EVERY_NS, NAME, Alive, CutOff
from daq.words import Stamp
from tests.words import en

HERE, EARLIER = "boot-2", "boot-1"
NOON = round(datetime.datetime(2026, 3, 2, 12).timestamp()) * 1_000_000  # of this computer's zone
MINUTE = 60_000_000


class Time:
    """A clock that a test sets."""

    now = Stamp(10**9, NOON, HERE, utc_trusted=True)

    def mono_ns(self):
        return self.now.mono_ns

    def stamp(self):
        return self.now

    def on(self, ns):
        utc_us = self.now.utc_us + ns // 1000
        self.now = dataclasses.replace(self.now, mono_ns=self.now.mono_ns + ns, utc_us=utc_us)


@pytest.fixture
def clock():
    return Time()


@pytest.fixture
def run(tmp_path, clock):
    def begun(last=None):
        alive = Alive(tmp_path, clock, "1.0", last)
        alive.begin()
        return alive

    return begun


def another_start(clock, **what):
    clock.now = dataclasses.replace(clock.now, boot=what.pop("boot", HERE), **what)


def test_the_first_run_and_one_after_a_proper_end_have_nothing_to_tell(run, tmp_path):
    first = run()
    assert first.cut_off is None
    first.ended()
    assert list(tmp_path.iterdir()) == []
    assert run().cut_off is None


def test_with_another_start_of_the_computer_it_went_off(run, clock):
    clock.now = dataclasses.replace(clock.now, boot=EARLIER)
    run()
    another_start(clock, utc_us=NOON + 9 * MINUTE)
    cut = run().cut_off
    assert cut == CutOff("power", NOON)
    assert en(cut.say(clock.now)) == "The Pi went off soon after 12:00."


def test_within_one_start_it_was_killed(run, clock):
    run()
    cut = run().cut_off
    assert cut == CutOff("killed", NOON)
    assert en(cut.say(clock.now)) == "headsweep was cut off soon after 12:00."


def test_the_records_last_row_may_be_the_later_sign_of_life(run, clock):
    run()
    row = Stamp(0, NOON + MINUTE, HERE, utc_trusted=True)
    assert run(row).cut_off == CutOff("killed", NOON + MINUTE)
    elsewhere = dataclasses.replace(row, boot=EARLIER)
    assert run(elsewhere).cut_off == CutOff("killed", NOON)
    unsure = dataclasses.replace(row, utc_trusted=False)
    assert run(unsure).cut_off == CutOff("killed", NOON)


def test_a_clock_that_nobody_had_set_tells_no_time(run, clock):
    clock.now = dataclasses.replace(clock.now, utc_trusted=False)
    run()
    cut = run().cut_off
    assert cut == CutOff("killed", None)
    assert en(cut.say(clock.now)) == "headsweep was cut off."


@pytest.mark.parametrize(
    "now", [{"utc_us": NOON + 24 * 60 * MINUTE}, {"utc_trusted": False}], ids=["later", "unsure"]
)
def test_the_day_stands_with_the_time_unless_it_is_known_to_be_today(clock, now):
    say = CutOff("power", NOON).say(dataclasses.replace(clock.now, **now))
    assert "soon after 2026\u201103\u201102 12:00." in en(say)


def test_it_is_written_anew_every_five_minutes_and_no_oftener(run, clock, tmp_path):
    alive, path = run(), tmp_path / NAME
    before = path.stat().st_ino
    clock.on(EVERY_NS - 1000)
    alive.turn()
    assert path.stat().st_ino == before
    clock.on(1000)
    alive.turn()
    assert run().cut_off == CutOff("killed", NOON + EVERY_NS // 1000)


def test_cut_short_at_any_byte_it_still_says_that_there_was_no_end(run, tmp_path, clock):
    run()
    path = tmp_path / NAME
    whole = path.read_bytes()
    for length in range(len(whole) - 1):  # the last byte ends the line
        path.write_bytes(whole[:length])
        assert run().cut_off == CutOff("unclear", None)
    assert "The Pi or headsweep was cut off" in en(CutOff("unclear", None).say(clock.now))


@pytest.mark.parametrize(
    "bad", [b"\xff", b"[]", b"[" * 100_000, b'{"boot": 1}', b"null"], ids=lambda bad: str(bad[:9])
)
def test_whatever_stands_there(run, tmp_path, bad):
    (tmp_path / NAME).write_bytes(bad)
    assert run().cut_off == CutOff("unclear", None)


def test_a_time_beyond_all_calendars(run, tmp_path):
    run()
    path = tmp_path / NAME
    path.write_text(json.dumps(json.loads(path.read_text()) | {"utc_us": 10**30}))
    assert run().cut_off == CutOff("unclear", None)


def test_a_folder_in_its_place_and_a_disk_that_takes_nothing_stop_no_start(run, tmp_path, caplog):
    (tmp_path / NAME).mkdir()
    alive = run()
    assert alive.cut_off == CutOff("unclear", None)
    alive.ended()
    told = [record.getMessage() for record in caplog.records]
    assert [each.partition(": ")[0] for each in told[1:]] == [
        f"{tmp_path / NAME} is not written",
        f"{tmp_path / NAME} is not removed",
    ]


def test_it_names_the_process_and_the_release(run, tmp_path):
    run()
    kept = json.loads(Path(tmp_path / NAME).read_text())
    assert (kept["boot"], kept["pid"], kept["engine"]) == (HERE, os.getpid(), "1.0")
