"""What is made of the bytes of one opening, told the time and nothing else."""

import itertools

import pytest

from daq.gauges import config
from daq.gauges.hearing import Hearing
from daq.gauges.wire import BytesShown, Wire
from daq.virtual.uart import LineEnd, hear, waveform
from daq.words import said
from tests.gauges.conftest import flowing_frame, gauge_table
from tests.words import en

MS = 1_000_000
S = 1000 * MS
STATUS_FRAME = {
    "shape": "text",
    "unit": "mm",
    "pattern": r"(?P<sign>[+-])(?P<value>\d\.\d{3})(?P<status>[A-Z]?)",
    "flags": {"L": "weak-battery", "X": "error", "T": "over-travel"},
}
ASKS = {"mode": "asks", "interval": "0.5 s", "request": r"R\r", "timeout": "0.1 s"}


def hearing(now_ns=0, **changes):
    return Hearing("dial", config.from_table(gauge_table(**changes), "test.toml"), "run", now_ns)


def flagged(**changes):
    made = hearing(frame=STATUS_FRAME, **changes)
    assert made.take(b"\r\n", 0) == []
    return made


def test_samples_are_numbered_stamped_and_in_mm():
    made = hearing()
    one, two = made.take(b"\r\n+001.234 mm\r\n-000.001 in\r\n", 5)
    (three,) = made.take(flowing_frame(0.5), 7)
    assert [(each.n, each.mono_ns, each.run) for each in (one, two, three)] == [
        (0, 5, "run"),
        (1, 5, "run"),
        (2, 7, "run"),
    ]
    # NIST SP 811, appendix B.8: 1 in = 25.4 mm exactly.
    assert (two.value_mm, two.unit) == (-0.001 * 25.4, "in")


def test_the_first_good_frame_is_told_of_at_once_and_health_five_times_a_second():
    made = hearing()
    assert made.look_ns == 200 * MS
    made.take(b"\r\n" + flowing_frame(1), 50 * MS)
    assert made.look_ns == 50 * MS
    status = made.status(50 * MS)
    assert (status.code, status.good, status.bad, status.last_mono_ns) == ("ok", 1, 0, 50 * MS)
    assert made.look_ns == 250 * MS


def test_a_weak_battery_leaves_the_number_and_is_warned_of():
    made = flagged()
    (sample,) = made.take(b"+1.234L\r\n", S)
    assert (sample.value_mm, sample.flags) == (1.234, ("weak-battery",))
    status = made.status(S)
    assert status.code == "ok"
    assert status.warnings == (said("battery-is-weak"),)


@pytest.mark.parametrize(
    ("frame", "resolution", "sent", "warned"),
    [
        (STATUS_FRAME, "0.001 mm", b"+1.234", False),
        (STATUS_FRAME, "0.0005 mm", b"+1.234", True),
        (STATUS_FRAME, "0.001 in", b"+1.234", False),
        (STATUS_FRAME | {"unit": "in"}, "0.001 mm", b"+1.234", True),
        (STATUS_FRAME | {"pattern": r"(?P<value>\d+\.?\d*)"}, "0.01 mm", b"12.34", False),
        (STATUS_FRAME | {"pattern": r"(?P<value>\d+\.?\d*)"}, "0.01 mm", b"12.3", True),
        (STATUS_FRAME | {"pattern": r"(?P<value>\d+,\d+)", "decimal": ","}, "1 µm", b"1,23", True),
    ],
)
def test_a_number_with_fewer_digits_than_the_files_resolution_is_warned_of(
    frame, resolution, sent, warned
):
    made = hearing(frame=frame, resolution=resolution)
    assert made.take(b"\r\n" + sent + b"\r\n", S)
    assert made.status(S).warnings == (said("digits-are-coarse"),) * warned
    assert made.status(S).code == "ok"


def test_a_float_has_as_many_digits_as_it_needs():
    frame = {"shape": "fields", "layout": ["text #", "float 32"], "unit": "mm", "apart": "pause"}
    made = hearing(frame=frame)
    made.take(b"", S)
    made.take(b"#\x3f\xc0\x00\x00", S)
    (sample,) = made.take(b"", 2 * S)
    assert sample.value_mm == 1.5
    assert made.status(2 * S).warnings == ()


@pytest.mark.parametrize(("letter", "code"), [("X", "gauge-error"), ("T", "over-travel")])
def test_a_number_that_means_nothing_is_no_sample(letter, code):
    made = flagged()
    made.take(b"+1.234\r\n", S)
    (sample,) = made.take(f"+1.300{letter}\r\n+1.301\r\n".encode(), S)
    assert (sample.n, sample.value_mm) == (1, 1.301)
    assert made.status(S).code == code
    assert made.take(f"+1.302{letter}\r\n".encode(), 2 * S) == []
    assert made.status(2 * S).code == code
    (back,) = made.take(b"+1.200\r\n", 4 * S)
    assert back.n == 2
    assert made.status(4 * S).code == "ok"


def test_a_silence_as_long_as_the_pause_parts_frames():
    made = hearing(talk={"interval": "1 s", "pause": "50 ms"})
    assert made.wait_s(0) == 0.05
    made.take(b"\r\n+001.2", 0)
    made.take(b"", 49 * MS)
    assert len(made.take(b"34 mm\r\n+001.2", 49 * MS)) == 1
    made.take(b"", 99 * MS)
    assert made.take(b"34 mm\r\n", 99 * MS) == []


def test_a_key_is_ok_from_the_opening_and_its_first_press_counts():
    made = hearing(talk={"mode": "key"})
    made.take(b"", 200 * MS)
    assert made.status(200 * MS).code == "ok"
    (sample,) = made.take(flowing_frame(1.5), 3600 * S)
    assert sample.value_mm == 1.5
    assert made.status(7200 * S).code == "ok"


def test_asking():
    made = hearing(talk=ASKS)
    assert made.sends
    assert made.request(0) == b""
    assert made.wait_s(0) == 0.2
    made.take(b"", 200 * MS)
    assert made.request(200 * MS) == b"R\r"
    assert made.wait_s(200 * MS) == 0.1
    (sample,) = made.take(flowing_frame(1.5), 230 * MS)
    assert sample.value_mm == 1.5
    assert made.request(699 * MS) == b""
    assert made.request(700 * MS) == b"R\r"
    for late in (800, 900, 1000):
        assert made.request(late * MS) == b"R\r"
    status = made.status(1000 * MS)
    say = "silent: 3 requests without an answer: check its cable and battery."
    assert (status.code, en(status.say)) == ("silent", say)
    assert made.take(flowing_frame(1.6), 1010 * MS) == []
    assert made.wire().missing == 3
    assert made.wire().discarded == 1


def test_a_streaming_gauge_is_not_asked():
    made = hearing()
    assert not made.sends
    assert made.request(S) == b""


def test_the_wire_as_a_setup_page_shows_it():
    made = hearing()
    assert made.wire() == Wire("run")
    for k in range(7):
        made.take(b"\r\n" + flowing_frame(k), k)
    made.take(b"+001.2\xff mm", 8)
    made.take(b"\r\n+00", 9)
    wire = made.wire()
    assert (wire.good, wire.bad, wire.came) == (7, 1, 7 * 15 + 15)
    assert [frame.text for frame in wire.frames] == [f"+00{k}.000 mm" for k in range(2, 7)]
    assert wire.frames[0].hex == "2b 30 30 32 2e 30 30 30 20 6d 6d"
    assert wire.last.text.endswith("+006.000 mm··+001.2· mm··+00")
    assert len(wire.last.text) == 64
    assert wire.last_bad == BytesShown(wire.last.hex, wire.last.text)


RATES = (300, 1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200)
FRAMINGS = ((8, "none", 1), (7, "even", 1), (7, "odd", 1), (8, "even", 1), (7, "even", 2))


def settings():
    return [LineEnd(rate, *framing) for rate, framing in itertools.product(RATES, FRAMINGS)]


@pytest.mark.parametrize("sent", settings(), ids=str)
def test_wrong_settings_are_said_within_ten_seconds_and_make_no_sample(sent):
    """A model of the line, bit by bit, for every pair of speeds and framings."""
    values = [k * 0.137 for k in range(-4, 5)]
    frames = [flowing_frame(value) for value in values]
    levels = [waveform([frame], sent) for frame in frames]
    for received in settings():
        made = hearing(talk={"interval": "0.2 s"})
        # A byte with a wrong parity or stop bit is read as 0: so the link sets the terminal.
        came = [hear(each, sent.baud, received, framing="zero", parity="zero") for each in levels]
        made.take(b"", 200 * MS)
        found, codes = [], set()
        for k in range(2, 50):
            found += [s.raw + b"\r\n" for s in made.take(came[k % len(came)], k * 200 * MS)]
            status = made.status(k * 200 * MS + 1)
            codes |= {status.code} if status else set()
        assert set(found) <= set(frames), received
        if not found:
            heard = sum(map(len, came)) > 2 * len(came)
            assert "wrong-settings" in codes or not heard, received
            assert codes <= {"wrong-settings", "silent"}, received
        else:
            assert (sent.baud, sent.bits) == (received.baud, received.bits)
            assert codes == {"ok"}
