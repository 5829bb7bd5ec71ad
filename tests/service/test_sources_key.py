"""The gauge's own key as a source of takes."""

import pytest

from daq.service.sources.key import SOURCE, KeyOptions
from tests.service.console import Console, action, gauge

SECOND = 1_000_000_000
TAKE = action("take", {"position": "front"}, primary=True)


@pytest.fixture(params=[1, 3])
def presses(request):
    return request.param


@pytest.fixture
def console(clock, presses):
    config = gauge("key", presses=presses)
    with Console(clock, config) as made:
        running = SOURCE.start(KeyOptions(), made.switchboard)
        made.show([TAKE], seq=3)
        yield made
        running.stop()


def test_a_press_is_a_take_that_came_just_before_its_frame(console, sample):
    console.hub.on_sample(sample(0, 7 * SECOND, gauge="g"))
    command = console.inbox.next()
    assert (command.kind, command.payload) == ("take", {"position": "front"})
    assert (command.expects_seq, console.inbox.at_ns) == (3, [7 * SECOND - 1])


def test_the_frames_of_one_press_are_one_take(console, sample):
    for n in range(4):
        console.hub.on_sample(sample(n, 7 * SECOND + n * 80_000_000, gauge="g"))
        console.done()
    console.hub.on_sample(sample(4, 9 * SECOND, gauge="g"))
    console.done()
    assert len(console.inbox.got) == 2


def test_where_no_number_is_asked_for_the_key_does_nothing(console, sample):
    for kind in ("prepared", "loosened", "stopped", "tightened", "open"):
        console.show([action(kind, primary=True)])
        console.hub.on_sample(sample(0, 7 * SECOND, gauge="g"))
    console.show([action("answer")])
    console.hub.on_sample(sample(0, 9 * SECOND, gauge="g"))
    console.done()
    assert console.inbox.got == []


def test_another_gauges_key_is_not_heard(console, sample):
    console.hub.on_sample(sample(0, 7 * SECOND, gauge="other"))
    console.done()
    assert console.inbox.got == []


def test_how_often_to_press_is_said_while_it_waits(console, sample, presses):
    console.inbox.hold.clear()
    console.hub.on_sample(sample(0, 7 * SECOND, gauge="g"))
    console.until(lambda: console.said)
    assert ("3 times in all" in console.said["say"]) == (presses == 3)


def test_only_a_gauge_that_sends_on_its_key_has_one():
    SOURCE.check(KeyOptions(), gauge("key"))
    with pytest.raises(ValueError, match='mode = "streams"'):
        SOURCE.check(KeyOptions(), gauge())
