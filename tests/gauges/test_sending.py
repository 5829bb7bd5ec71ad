"""What is sent to a gauge: start-up commands, steps before a request, and their echo."""

import pytest

from daq.gauges import config
from daq.gauges.frames.shared.checked import Check
from daq.gauges.hearing import Hearing
from daq.settings import SettingsError
from tests.gauges.conftest import flowing_frame, gauge_table
from tests.words import faults

MS = 1_000_000
S = 1000 * MS
ASKS = {"mode": "asks", "interval": "0.5 s", "request": r"R\r", "timeout": "0.1 s"}


def hearing(**talk):
    return Hearing("dial", config.from_table(gauge_table(talk=talk), "test.toml"), "run", 0)


def sent(made, until_ns, from_ns=0):
    """What is sent, and when, looked at every ms."""
    found = []
    for at in range(from_ns, until_ns, MS):
        if data := made.request(at):
            found.append((at // MS, data))
    return found


def test_a_stream_is_started_and_started_again_when_it_fell_silent():
    made = hearing(interval="100 ms", start=[r"ON\r", r"RUN\r"], step="50 ms")
    assert made.sends
    assert made.wait_s(0) == 0.0
    assert sent(made, 900 * MS) == [(0, b"ON\r"), (50, b"RUN\r")]
    made.take(b"\r\n" + flowing_frame(1), 900 * MS)
    assert sent(made, 1899 * MS, 900 * MS) == []
    assert sent(made, 2000 * MS, 1899 * MS) == [(1900, b"ON\r"), (1950, b"RUN\r")]


def test_a_gauge_that_needs_no_start_is_sent_nothing():
    made = hearing(interval="100 ms")
    assert not made.sends
    assert sent(made, 3 * S) == []


def test_steps_come_before_each_request_and_their_answers_are_no_frames():
    made = hearing(**ASKS, steps=[r"C2\r", r"H\r"], step="100 ms")
    first = sent(made, 900 * MS)
    assert [data for _, data in first] == [b"C2\r", b"H\r", b"R\r"]
    begun = first[0][0]
    assert [at - begun for at, _ in first] == [0, 100, 200]
    made = hearing(**ASKS, steps=[r"C2\r"], step="100 ms")
    ((begun, _),) = sent(made, 450 * MS)
    assert made.take(b"OK\r\n" + flowing_frame(7), (begun + 60) * MS) == []
    assert sent(made, (begun + 101) * MS, 450 * MS) == [(begun + 100, b"R\r")]
    made.take(b"\r\n", (begun + 101) * MS)
    (sample,) = made.take(flowing_frame(3), (begun + 120) * MS)
    assert sample.value_mm == 3
    assert made.wire().bad == 0


@pytest.mark.parametrize("parts", [[9], [1, 8], [2, 3, 4], [1] * 9])
def test_an_echo_is_no_part_of_the_answer(parts):
    made = hearing(**ASKS, echo=True)
    ((begun, _),) = sent(made, 250 * MS)
    answer = b"R\r" + b"\r\n" + flowing_frame(2)
    found = []
    for n, size in enumerate(parts):
        found += made.take(answer[:size], begun * MS + n * MS)
        answer = answer[size:]
    found += made.take(answer, begun * MS + 20 * MS)
    assert [sample.value_mm for sample in found] == [2]
    assert made.wire().bad == 0


def test_without_its_echo_an_answer_counts_all_the_same():
    made = hearing(**ASKS, echo=True)
    ((begun, _),) = sent(made, 250 * MS)
    (sample,) = made.take(b"\r\n" + flowing_frame(2), begun * MS + MS)
    assert sample.value_mm == 2


def test_a_request_with_an_address_gets_its_check_value():
    # That 01 04 00 00 00 02 ends in 71 CB is printed in many a field bus's manual: from memory.
    check = {"kind": "crc-16/modbus", "sent": "low-first"}
    talk = {"mode": "asks", "interval": "0.5 s", "request_hex": "01 04 00 00 00 02"}
    made = config.from_table(gauge_table(talk={**talk, "check": check}), "t").talk
    assert made.asked == bytes.fromhex("010400000002 71cb")
    assert Check(**check).holds(made.asked)


@pytest.mark.parametrize(
    ("talk", "words"),
    [
        ({"interval": "1 s", "echo": True}, 'found echo with mode = "streams"'),
        ({"interval": "1 s", "steps": ["A"]}, 'found steps with mode = "streams"'),
        ({"interval": "1 s", "check": {"kind": "xor"}}, 'found check with mode = "streams"'),
        ({"interval": "1 s", "start": [""]}, "found a request of 0 bytes"),
        ({"interval": "1 s", "start": [r"\q"]}, r"found '\\q' in request"),
        ({**ASKS, "steps": ["A" * 65]}, "found a request of 65 bytes"),
        ({**ASKS, "steps": ["A"] * 9, "step": "0.2 s"}, "with its steps; allowed: at"),
        ({**ASKS, "stepp": "1 s"}, "unknown key 'stepp'; nearest known: 'step'"),
    ],
)
def test_what_cannot_be_sent_is_told(talk, words):
    with pytest.raises(SettingsError) as caught:
        config.from_table(gauge_table(talk=talk), "test.toml")
    assert any(words in fault for fault in faults(caught.value)), faults(caught.value)
