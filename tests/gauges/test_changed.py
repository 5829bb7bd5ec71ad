"""Another program changes a port's settings: noticed, said, set right, and nothing believed."""

import termios

from tests.gauges.conftest import flowing_frame
from tests.words import en

FRAME = flowing_frame(1.234)


def flowing(far_end, heard):
    """Let one frame through a port that was opened; return the run."""
    run = heard.opened()
    far_end.send(b"\r\n" + FRAME)
    assert heard.sample().run == run
    status = heard.status()
    if status.code == "silent":  # a busy machine let that long pass before the frame
        status = heard.status()
    assert (status.code, status.run) == ("ok", run)
    return run


def change_speed(far_end, speed):
    settings = termios.tcgetattr(far_end.slave)
    settings[4] = settings[5] = speed
    termios.tcsetattr(far_end.slave, termios.TCSANOW, settings)


def test_changed_settings_are_noticed_said_and_set_right(reader, far_end, heard):
    reader.start()
    run = flowing(far_end, heard)
    rounds = heard.looks
    change_speed(far_end, termios.B300)
    status = heard.status()
    assert heard.told_at - rounds <= 2  # the next time round; one may be under way
    assert (status.code, status.run) == ("changed", run)
    assert "changed the speed of" in en(status.say)
    assert en(status.say).endswith("from 9600 to 300 baud; close that program.")
    assert flowing(far_end, heard) != run
    assert termios.tcgetattr(far_end.slave)[5] == termios.B9600


def test_nothing_that_came_since_the_settings_changed_is_taken(reader, far_end, heard):
    reader.start()
    flowing(far_end, heard)
    for _ in range(20):
        change_speed(far_end, termios.B300)
        far_end.send(FRAME)
        assert heard.status().code == "changed"
        flowing(far_end, heard)
    reader.stop()
    assert heard.samples.empty()
    assert heard.made == 21


def test_a_program_that_changes_them_again_and_again_is_no_busy_loop(
    make_reader, far_end, heard, monkeypatch
):
    reader = make_reader(far_end.path)
    tries = []
    waited = reader._port._stopping.wait

    def wait(retry_s):
        tries.append(retry_s)
        return waited(retry_s)

    monkeypatch.setattr(reader._port._stopping, "wait", wait)
    reader.start()
    flowing(far_end, heard)
    for _ in range(5):
        change_speed(far_end, termios.B300)
        assert heard.status().code == "changed"
        flowing(far_end, heard)
    assert tries == [0.002] * 5
