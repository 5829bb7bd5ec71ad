"""What a person is asked while a gauge is learned; nothing is made that no face bore out."""

import tomllib

import pytest

from daq.gauges.config import from_table
from daq.gauges.errors import LearnError
from daq.settings import SettingsError
from daq.virtual.uart import LineEnd
from tests.gauges.learn_desk import Desk, learned
from tests.gauges.learn_trials import NOT_TO_BE_TOLD, PLAIN, Trial, signed

PLAIN_FRAMES = PLAIN["plain"]
PACKED = PLAIN["packed"]
TOLD = ("--name", "Arm gauge", "--serial-number", "7", "--travel", "12.7 mm")
TOLD += ("--max-error", "0.004 mm", "--calibration-due", "2028-03-31")


@pytest.mark.parametrize("name", ["plain", "digits", "packed", "inches"])
def test_a_gauge_that_streams_is_learned_and_tried_with_its_own_file(name):
    desk = Desk(PLAIN[name])
    made = learned(desk, *TOLD)
    config = from_table(tomllib.loads(made.text), "learned")
    assert config.talk.mode == "streams"
    assert config.line.baud == 9600
    assert config.counts_up
    assert config.resolution == pytest.approx(PLAIN[name].size_mm)
    assert desk.codes[-1] == "learn-tried-out"
    assert made.missing == ()


def test_a_step_that_an_even_hand_may_have_made_is_asked_and_never_guessed():
    """Half thousandths, and a hand that goes on by 0.1 mm from each number to the next."""
    desk = Desk(PLAIN["half thousandths"])
    config = from_table(tomllib.loads(learned(desk, *TOLD).text), "learned")
    assert "learn-resolution" in desk.asks
    assert config.resolution == pytest.approx(0.0005)
    desk = Desk(PLAIN["half thousandths"], types={"learn-resolution": ""})
    text = learned(desk, *TOLD).text
    assert 'resolution = "0.0001 mm"' in text
    assert "too few numbers came to tell; see its manual" in text


def test_the_number_believed_is_shown_before_anything_is_typed():
    desk = Desk(PLAIN_FRAMES)
    learned(desk, *TOLD)
    assert desk.shown[0] == "-00.400 mm"
    assert desk.asks[:2] == ["learn-speed", "learn-face-free"]


def test_text_at_the_first_speed_ends_the_search():
    desk = Desk(PLAIN_FRAMES)
    learned(desk, *TOLD)
    assert {line.baud for line in desk.opens} == {9600}


def test_every_speed_is_tried_down_to_300_and_its_step_counted():
    desk = Desk(Trial(PLAIN_FRAMES.frame, 0.001, 0.9), own=LineEnd(300))
    made = learned(desk, *TOLD)
    assert "baud = 300\n" in made.text
    assert any("Try 2 of" in said for said in desk.says)


def test_the_manuals_speed_is_the_only_one_tried():
    desk = Desk(PACKED, own=LineEnd(2400), types={"learn-speed": "2400"})
    made = learned(desk, *TOLD)
    assert {line.baud for line in desk.opens[1:]} == {2400}
    assert "baud = 2400\n" in made.text


def test_a_speed_of_bytes_is_told_without_their_frames():
    desk = Desk(PACKED, own=LineEnd(2400))
    assert "baud = 2400\n" in learned(desk, *TOLD).text
    assert {line.baud for line in desk.opens} <= {9600, 19200, 4800, 2400}


def test_a_network_port_has_no_speeds():
    desk = Desk(PLAIN_FRAMES, own=LineEnd(9600))
    learned(desk, *TOLD, "--port", "socket://127.0.0.1:1")
    assert {line.baud for line in desk.opens} == {9600}
    assert "learn-speed" not in desk.asks


def test_nothing_is_asked_of_a_port_that_cannot_be_opened():
    desk = Desk(PLAIN_FRAMES)

    def shut(line, url):
        raise PermissionError(url)

    desk.open = shut
    with pytest.raises(PermissionError):
        learned(desk)
    assert desk.asks == []


def test_a_face_that_came_nowhere_is_asked_for_again_and_at_last_refused():
    desk = Desk(PLAIN_FRAMES, types={"learn-face-pushed": ["0.777 mm"]})
    assert "number" in learned(desk, *TOLD).text
    assert "learn-face-again" in desk.asks
    desk = Desk(PLAIN_FRAMES, types={"learn-face-pushed": "0.777", "learn-face-again": "0.778"})
    with pytest.raises(LearnError, match="learn-no-fit"):
        learned(desk, *TOLD)


def test_what_is_no_number_is_asked_for_again():
    desk = Desk(PLAIN_FRAMES, types={"learn-face-free": ["about zero"]})
    learned(desk, *TOLD)
    assert desk.asks.count("learn-no-number") == 1


def test_the_other_sign_is_asked_for_and_said_when_it_cannot_be_had():
    places = {"free": 0.2, "pushed": 1.2, "elsewhere": -0.3}
    desk = Desk(PLAIN_FRAMES, places=places)
    assert "only one sign" not in learned(desk, *TOLD).text
    assert "learn-face-minus" in desk.asks
    desk = Desk(PLAIN_FRAMES, places=places, types={"learn-face-minus": ""})
    assert "only one sign was on the face" in learned(desk, *TOLD).text


def test_a_contact_that_was_not_pushed_makes_no_file():
    places = {"free": -0.4, "pushed": -0.398, "elsewhere": -0.4}
    with pytest.raises(LearnError, match="learn-not-pushed"):
        learned(Desk(PLAIN_FRAMES, places=places), *TOLD)


def test_bytes_are_asked_about_three_times_and_worked():
    desk = Desk(PACKED)
    learned(desk, *TOLD)
    faces = [code for code in desk.asks if code.startswith("learn-face")]
    assert len(faces) >= 3
    assert "learn-work" in desk.codes
    assert desk.shown


def test_two_that_fit_equally_are_told_apart_by_one_more_face():
    """A second channel goes along until the third face is asked for."""

    def frame(n, nth):
        return f"A{signed(n)} B{signed(n if n in (-400, 600) else n + 250)}\r\n".encode()

    desk = Desk(Trial(frame))
    assert "text A" in learned(desk, *TOLD).text
    assert "learn-face-elsewhere" in desk.asks


def test_nothing_is_invented_that_was_not_told():
    made = learned(Desk(PLAIN_FRAMES))
    assert made.missing == ("name", "serial_number", "travel", "max_error", "calibration_due")
    for key in made.missing:
        assert f"\n# {key} = " in made.text
    with pytest.raises(SettingsError):
        from_table(tomllib.loads(made.text), "learned")


def test_noise_makes_no_file():
    with pytest.raises(LearnError, match="learn-no-fit"):
        learned(Desk(PLAIN_FRAMES, "noise"), *TOLD)


def test_a_gauge_that_is_asked_is_tried_too():
    desk = Desk(PLAIN_FRAMES, "answers")
    assert 'mode = "asks"' in learned(desk, *TOLD).text
    assert desk.codes[-1] == "learn-tried-out"


def test_a_request_that_is_given_is_the_only_one():
    desk = Desk(PLAIN_FRAMES, "answers")
    assert 'request_hex = "47 4f"' in learned(desk, *TOLD, "--request", "GO").text


@pytest.mark.parametrize("more", [(), ("--request", "GO")], ids=["guessed", "given"])
def test_a_stream_that_a_request_sets_going_is_started_not_asked(more):
    made = learned(Desk(PLAIN_FRAMES, "started"), *TOLD, *more)
    config = from_table(tomllib.loads(made.text), "learned")
    assert config.talk.mode == "streams"
    assert config.talk.started != ()


def test_a_key_is_pressed_for_each_face():
    desk = Desk(PLAIN_FRAMES, "key")
    made = learned(desk, *TOLD, "--key")
    assert 'mode = "key"' in made.text
    assert desk.asks[-1] == "learn-press-once"


@pytest.mark.parametrize(
    ("after", "bad"), [(lambda nth: b"\x91\x02\r\n", 19), (lambda nth: b"", 0)],
    ids=["nothing good", "silent"],
)  # fmt: skip
def test_a_file_that_does_not_read_its_gauge_is_not_made(after, bad):
    """It talks as learned until all is told, and otherwise when its file is tried."""
    desk = Desk(PLAIN_FRAMES, after=after)
    with pytest.raises(LearnError) as caught:
        learned(desk, *TOLD[:-2])
    assert desk.asks[-1] == "learn-due"
    assert (caught.value.say.code, caught.value.say.of["good"]) == ("learn-file-reads-badly", 0)
    assert bad - 2 <= caught.value.say.of["bad"] <= bad + 2


def test_a_busy_machine_that_tears_frames_for_a_while_is_given_time():
    torn = iter([b"\x91\x02\r\n"] * 15)
    desk = Desk(PLAIN_FRAMES, after=lambda nth: next(torn, PLAIN_FRAMES.frame(600, nth)))
    learned(desk, *TOLD[:-2])
    assert desk.codes[-1] == "learn-tried-out"
    assert next(torn, None) is None


def test_what_is_no_answer_is_asked_for_again_and_nothing_is_lost():
    types = {"learn-due": ["tomorrow"], "learn-kind": ["round"], "learn-max-error": ["0.004"]}
    desk = Desk(PLAIN_FRAMES, types=types)
    made = learned(desk, *TOLD[:6])
    assert desk.asks.count("learn-no-answer-that") == 3
    assert {"max_error", "calibration_due"} <= set(made.missing)


def test_a_flag_that_is_none_is_refused_before_anything_is_asked():
    desk = Desk(PLAIN_FRAMES)
    with pytest.raises(ValueError, match="tomorrow"):
        learned(desk, *TOLD[:-1], "tomorrow")
    assert desk.asks == []


def test_frames_that_its_file_does_not_read_are_noted_in_it():
    def frame(n, nth):
        return f"{signed(n)} mm\r\n".encode() if nth % 3 else b"status ok\r\n"

    assert "0.5 frames that it does not read came" in learned(Desk(Trial(frame)), *TOLD).text


@pytest.mark.parametrize("name", NOT_TO_BE_TOLD)
def test_what_statistics_could_not_tell_the_face_tells(name):
    desk = Desk(NOT_TO_BE_TOLD[name])
    assert from_table(tomllib.loads(learned(desk, *TOLD).text), "learned").counts_up
