"""A board says what was sent: one that is a program, and the real one's program, simulated.

The latter is made by Debian's avr-gcc and run by its simavr, a processor that is none of ours.
"""

import pytest

from tests.hardware.bridge.said import KINDS, asked, ready, sent

BOARDS = ["program", pytest.param("simulated", marks=pytest.mark.long)]
SLOW_LINE_US = 300_000
"""What a board says at its start takes time on its line."""


@pytest.fixture(params=BOARDS)
def board(request):
    return request.getfixturevalue(request.param)


@pytest.mark.parametrize("period_us", [100, 500])
@pytest.mark.parametrize("kind", KINDS)
def test_frames_come_through_a_board(board, kind, period_us):
    wires = ready(seed=period_us, period_us=period_us, now_us=SLOW_LINE_US)
    said, must, _ = sent(board, wires, 20, kind)
    assert said == must
    assert len(said) == 19


@pytest.mark.parametrize("kind", KINDS)
def test_glitches_of_10_us_cost_nothing(board, kind):
    wires = ready(seed=21, now_us=SLOW_LINE_US)

    def spoil(changes, nth):
        return wires.glitched(changes, every_us=300, most_us=10), True

    said, must, _ = sent(board, wires, 20, kind, spoil)
    assert said == must
    assert len(said) == 19


@pytest.mark.parametrize("every_us", [150, 1000])
def test_longer_and_denser_glitches_make_no_value_wrong(board, every_us):
    """The real board is late by some microseconds: a frame may be lost, a value never wrong."""
    wires = ready(seed=22, now_us=SLOW_LINE_US)

    def spoil(changes, nth):
        return wires.glitched(changes, every_us) if nth % 4 else changes, True

    said, _, meant = sent(board, wires, 60, "24 bits", spoil)
    left = iter(meant)
    assert [value for value in said if value not in left] == []


def test_a_board_asks_by_its_own_pin(board):
    wires = ready(seed=23, now_us=SLOW_LINE_US)
    wires.typed("ask on\r")
    wires.wait(400_000)
    first, gone, again = asked(board, wires)[:3]
    assert 49_500 <= gone - first <= 50_500
    assert 99_500 <= again - first <= 100_500
