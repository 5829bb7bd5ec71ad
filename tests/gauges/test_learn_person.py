"""What a person at a terminal is asked, and when Enter is waited for."""

import io

import pytest

from daq.gauges.learn.live.person import AtTerminal, Silent


@pytest.fixture
def typed():
    """A terminal at which these lines are typed, and what it shows."""

    def make(*lines):
        out, left = io.StringIO(), list(lines)
        return AtTerminal(out, lambda: left.pop(0)), out, left

    return make


def test_an_answer_is_taken_and_enter_takes_what_is_proposed(typed):
    person, out, _ = typed("Arm gauge\n", "\n")
    assert person.asked("What is it called?", "New gauge") == "Arm gauge"
    assert person.asked("What is it called?", "New gauge") == "New gauge"
    assert "What is it called? [New gauge] " in out.getvalue()


def test_enter_is_awaited_only_where_the_number_must_not_be_taken_too_early(typed):
    person, out, left = typed("\n", "\n")
    person.do("work", "Work the contact.")
    assert len(left) == 2
    person.do("rest", "Let go.")
    person.do("push", "Push.")
    assert left == []
    assert out.getvalue().count("press Enter") == 2


def test_without_a_terminal_all_is_said_and_nothing_awaited():
    out = io.StringIO()
    person = Silent(out)
    person.do("push", "Push.")
    assert person.asked("What is it called?", "New gauge") == "New gauge"
    assert out.getvalue() == "Push.\n"
