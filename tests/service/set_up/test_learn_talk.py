"""The person at a page with whom a gauge is learned: what may be answered, what is shown."""

import time

import pytest

from daq.service.set_up.learn_talk import LearnTalk
from daq.words import SaidTrouble, said
from tests.words import troubled


@pytest.fixture
def clock():
    """As the machine's, and as much later as a test has it."""

    def now_ns():
        return time.monotonic_ns() + now_ns.later

    now_ns.later = 0
    return now_ns


@pytest.mark.parametrize(
    ("step", "code", "typed", "words"),
    [
        ("told", said("learn-name"), "x" * 81, "81 characters; allowed: at most 80"),
        ("told", said("learn-kind"), "round", '"round" is no answer to that'),
    ],
)
def test_an_answer_that_cannot_be_one_is_refused_and_asked_for_still(
    clock, step, code, typed, words
):
    talk = LearnTalk("port", "Kit Marsh", clock)
    refused = []

    def meanwhile():
        number = talk.view().question.number
        if not refused:
            with troubled(SaidTrouble, match=words):
                talk.answer(number, typed)
            with troubled(SaidTrouble, match="Something else is asked"):
                talk.answer(number - 1, "")
            refused.append(typed)
        talk.answer(number, "")

    assert talk.asked(step, code, meanwhile) == ""
    assert refused


def test_a_step_that_is_skipped_is_one_and_an_old_number_is_not_shown(clock):
    talk = LearnTalk("port", "Kit Marsh", clock)
    talk.tell(said("learn-leave-free"))
    talk.skip()
    assert (talk.view().may_skip, talk.skipped(), talk.skipped()) == (True, True, False)
    talk.show("0.123 mm")
    assert talk.view().believed == "0.123 mm"
    clock.later = 2 * 10**9
    assert talk.view().believed == ""
