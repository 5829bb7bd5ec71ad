"""The queue in front of the decider: whatever is handed in is answered."""

from concurrent.futures import Future
from threading import Event

import pytest

from daq.service.inbox import STOPPING, Inbox
from daq.words import Ack, Command
from tests.patience import PATIENCE_S

OPEN = Command("c", "mill", "open")


class Decides:
    """Answers at once; says when it is closed."""

    busy = False

    def __init__(self):
        self.closed = Event()

    def receive(self, command, arrived_ns, reply, make):
        reply.set_result(Ack(command.id, True, (2,), "ok"))

    def tick(self):
        pass

    def close(self, why):
        self.closed.set()


def test_a_press_on_its_way_into_the_queue_when_the_end_comes_is_answered():
    decides = Decides()

    def meanwhile():
        inbox.end()
        assert decides.closed.wait(PATIENCE_S)
        return 0

    inbox = Inbox(decides, meanwhile)
    inbox.start()
    reply = inbox.hand_in(OPEN)
    inbox.stop()
    assert reply.result(0) == Ack("c", False, (), "refused", STOPPING)


def test_every_answer_is_told_be_it_refused_or_not():
    inbox, told = Inbox(Decides()), []
    inbox.answered = lambda command, ack: told.append((command, ack.code))
    inbox.start()
    inbox.hand_in(OPEN)
    inbox.stop()
    inbox.hand_in(OPEN)
    assert told == [(OPEN, "ok"), (OPEN, "refused")]


@pytest.mark.filterwarnings("ignore::pytest.PytestUnhandledThreadExceptionWarning")
def test_what_is_queued_when_it_fails_is_answered():
    decides = Decides()
    queued: list[Future[Ack]] = []

    def fail(command, arrived_ns, reply, make):
        queued.append(inbox.hand_in(Command("d", "mill", "open")))
        raise MemoryError

    decides.receive = fail
    inbox = Inbox(decides)
    inbox.start()
    inbox.hand_in(OPEN)
    assert decides.closed.wait(PATIENCE_S)
    inbox.stop()
    assert [reply.result(0).reason for reply in queued] == [STOPPING]
