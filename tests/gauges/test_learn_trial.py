"""No file is written that was not tried on the gauge, nor of a gauge that talks otherwise."""

import tomllib

import pytest

from daq.gauges.config import from_table
from daq.gauges.errors import LearnError
from daq.gauges.learn.live.search import Patience
from daq.virtual.uart import LineEnd
from tests.gauges.learn_desk import Desk, learned
from tests.gauges.learn_trials import CHECKED, NOT_TO_BE_TOLD, PLAIN, Trial, signed

FIXED = ("--baud", "9600")
HURRIED = Patience(listen_s=2.0, work_s=2.6, still_s=0.35, push_s=20.0)


def config(text):
    return from_table(tomllib.loads(text), "learned")


@pytest.mark.parametrize("name", ["plain", "digits", "packed"])
def test_a_gauge_that_streams_is_tried_with_its_own_file(name):
    desk = Desk(PLAIN[name])
    found = config(learned(desk, *FIXED))
    assert found.talk.mode == "streams"
    (tried,) = [said for said in desk.says if said.startswith("Its own file was tried")]
    assert tried.endswith(" good frames, 0 bad.")
    assert int(tried.split()[5]) in (19, 20, 21)
    assert found.resolution == pytest.approx(0.001)


@pytest.mark.parametrize(
    "name", ["xor hex", "sum two decimal digits", "weights, no known check", "counter behind"]
)
def test_what_stands_beside_the_number_is_left_out_of_the_file(name):
    found = config(learned(Desk(CHECKED[name]), *FIXED))
    assert found.resolution == pytest.approx(0.001)


def test_a_last_digit_that_was_not_proved_is_worked_on():
    """Four numbers a second of steps this small: six seconds show too few of them."""
    slow = Trial(lambda n, nth: f"{signed(n, 4)} mm\r\n".encode(), 0.0001, 0.25)
    desk = Desk(slow)
    assert config(learned(desk, *FIXED)).resolution == pytest.approx(0.0001)
    assert any("over a short way" in said for said in desk.says)


def test_a_last_digit_that_is_never_proved_makes_no_file():
    rare = Trial(lambda n, nth: f"{signed(n, 4)} mm\r\n".encode(), 0.0001, 1.3)
    with pytest.raises(LearnError, match="not seen that the last digit"):
        learned(Desk(rare), *FIXED, patience=Patience(still_s=4.0, work_s=3.0, push_s=20.0))


def test_what_a_hand_did_while_nothing_came_is_no_jump_of_the_number():
    """A gauge, or its adapter, that says nothing for longer than half a turn of the hand."""
    desk = Desk(PLAIN["packed"], own=LineEnd(2400), hole=(2, 1.0, 2.4))
    found = config(learned(desk, "--baud", "2400", patience=HURRIED))
    assert (found.line.baud, found.resolution) == (2400, pytest.approx(0.001))


def test_digits_that_cannot_be_told_apart_make_no_file():
    mixed = NOT_TO_BE_TOLD["a check on a counter"]
    with pytest.raises(LearnError, match=r"do not move with the hand|was not understood"):
        learned(Desk(mixed), *FIXED)


def test_a_gauge_that_is_asked_is_tried_too():
    desk = Desk(PLAIN["plain"], "answers")
    assert config(learned(desk, *FIXED)).talk.mode == "asks"
    assert any(said.startswith("Its own file was tried: ") for said in desk.says)


def test_a_key_is_asked_for_one_press():
    desk = Desk(PLAIN["plain"], "key")
    assert config(learned(desk, *FIXED, "--key")).talk.mode == "key"
    assert desk.done[-2:] == ["key", "tried"]
    assert "Its own file was tried: 1 good frames, 0 bad." in desk.says


@pytest.mark.parametrize("more", [(), ("--request", "GO")], ids=["guessed", "given"])
def test_a_stream_that_a_request_starts_is_no_answer(more):
    desk = Desk(PLAIN["plain"], "started")
    with pytest.raises(LearnError, match=r"went on sending, \d+ bytes in .* it streams"):
        learned(desk, *FIXED, *more)


def test_a_stream_that_is_asked_is_no_answer():
    with pytest.raises(LearnError, match="it streams"):
        learned(Desk(PLAIN["plain"]), *FIXED, "--request", "GO")


def test_a_port_that_talks_by_itself_is_not_asked_though_it_is_not_understood():
    desk = Desk(PLAIN["plain"], "noise")
    with pytest.raises(LearnError, match=r"sends by itself \(\d+ bytes in 3 s at 9600 8N1\)"):
        learned(desk, *FIXED)
    assert not any("will be asked" in said for said in desk.says)


def test_a_port_that_talks_at_another_speed_is_not_asked():
    desk = Desk(PLAIN["plain"], own=LineEnd(300))
    with pytest.raises(LearnError, match="sends by itself"):
        learned(desk, *FIXED)


@pytest.mark.parametrize(
    ("after", "words"),
    [
        (lambda nth: b"\x91\x02\r\n", "0 good and .* bad frames"),
        (lambda nth: b"+00.600 mm\r\n" if nth % 3 else b"+0.600 mm\r\n", "good and .* bad frames"),
        (lambda nth: b"", "0 good and 0 bad frames"),
    ],
    ids=["nothing good", "one in three bad", "silent"],
)
def test_a_file_that_does_not_read_its_gauge_is_not_written(after, words):
    with pytest.raises(LearnError, match=words):
        learned(Desk(PLAIN["plain"], after=after), *FIXED)


def test_all_of_the_trial_comes_before_the_file_is_accepted():
    desk = Desk(PLAIN["plain"], after=lambda nth: b"")
    with pytest.raises(LearnError):
        learned(desk, *FIXED)
    assert "Is that right (yes or no)?" not in desk.asks
