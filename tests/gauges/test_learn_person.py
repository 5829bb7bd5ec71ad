"""A person at a terminal: what is printed, and how what is typed is waited for."""

import io
import os

import pytest

from daq.gauges.errors import LearnError
from daq.gauges.learn.live.person import AtTerminal, nothing
from daq.words import said
from tests.words import en


@pytest.fixture
def keyboard():
    reads, writes = os.pipe()
    with os.fdopen(reads) as typed:
        yield typed, writes


def test_an_answer_is_waited_for_while_something_goes_on(keyboard):
    reads, writes = keyboard
    out, rounds = io.StringIO(), []

    def meanwhile():
        rounds.append(1)
        if len(rounds) == 3:
            os.write(writes, b"  -0.350 mm \n")

    person = AtTerminal(out, en, reads)
    assert person.asked("free", said("learn-face-free"), meanwhile) == "-0.350 mm"
    assert len(rounds) == 3
    assert "with its unit, such as -0.123 mm?" in out.getvalue()
    os.close(writes)


def test_lines_typed_ahead_answer_one_question_each(keyboard):
    reads, writes = keyboard
    os.write(writes, b"12.7 mm\n\n9600\n")
    person = AtTerminal(io.StringIO(), en, reads)
    answers = [person.asked("told", said("learn-speed"), nothing) for _ in range(3)]
    assert answers == ["12.7 mm", "", "9600"]
    os.close(writes)


def test_enter_alone_skips_what_goes_on(keyboard):
    reads, writes = keyboard
    person = AtTerminal(io.StringIO(), en, reads)
    assert not person.skipped()
    os.write(writes, b"\n")
    assert person.skipped()
    assert not person.skipped()
    os.close(writes)


def test_a_keyboard_that_ends_is_said(keyboard):
    reads, writes = keyboard
    os.close(writes)
    with pytest.raises(LearnError, match="learn-nobody"):
        AtTerminal(io.StringIO(), en, reads).asked("free", said("learn-face-free"), nothing)


def test_a_number_is_drawn_when_it_has_changed(keyboard):
    reads, writes = keyboard
    out = io.StringIO()
    person = AtTerminal(out, en, reads)
    for number in ("-0.350 mm", "-0.350 mm", "-0.349 mm"):
        person.show(number)
    assert out.getvalue().count(" mm\n") == 2
    os.close(writes)
