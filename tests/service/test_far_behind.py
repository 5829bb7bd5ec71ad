"""A press from a screen that has been asleep: told what matters, at the cost of that alone."""

import pytest

from daq.ledger import reads
from tests.ledger.conftest import make_draft
from tests.service.rig import MILL, Rig
from tests.words import en


@pytest.fixture
def rig(tmp_path, config, clock, sample):
    made = Rig(tmp_path / "data", config, clock, sample)
    made.post("open", {"reason": "practice"}, "open")
    yield made
    made.decider.close("over")


def goes_on(rig, steps):
    """So many further steps on the machine, each beside one on another."""
    for n in range(0, steps, 500):
        many = range(n, min(steps, n + 500))
        pairs = ((make_draft(n, machine=MILL), make_draft(n, machine="other")) for n in many)
        rig.ledger.append([draft for pair in pairs for draft in pair])


class Work:
    """Counts the rows decoded and the steps of the database's machine."""

    def __init__(self, rig, monkeypatch):
        self.rows = self.steps = 0
        decode = reads.decode

        def counted(body):
            self.rows += 1
            return decode(body)

        def step():
            self.steps += 1
            return False

        monkeypatch.setattr(reads, "decode", counted)
        rig.ledger._connection.set_progress_handler(step, 1)


def stale(rig, expects=0):
    ack = rig.post("abandon", {"why": "x"}, f"late {expects}", expects=expects).result(0)
    assert (ack.accepted, ack.code) == (False, "stale")
    return [en(step) for step in ack.changed]


def test_it_is_told_the_last_few_and_how_many_came_before(rig):
    goes_on(rig, 41)
    changed = stale(rig)
    assert changed[0] == "37 steps before the last 5"
    assert changed[1:] == ["a reading was taken"] * 5


def test_few_are_all_told(rig):
    goes_on(rig, 4)
    assert stale(rig, expects=1) == ["an audit was opened", *["a reading was taken"] * 4]


def test_one_more_than_is_told(rig):
    goes_on(rig, 5)
    changed = stale(rig, expects=1)
    assert changed == ["1 step before the last 5", *["a reading was taken"] * 5]


def test_more_than_anybody_would_read_are_not_even_counted(rig):
    goes_on(rig, 300)
    assert stale(rig)[0] == "95 or more steps before the last 5"


def test_the_cost_is_the_same_however_long_the_history(rig, monkeypatch):
    goes_on(rig, 200)
    work = Work(rig, monkeypatch)
    stale(rig)
    short = (work.rows, work.steps)
    goes_on(rig, 3000)
    work.rows = work.steps = 0
    stale(rig, expects=1)
    assert (work.rows, work.steps) == short
    assert work.rows == 5


@pytest.mark.parametrize("expects", [-(2**70), -1, 2**63, 2**70])
def test_a_number_no_row_can_have_harms_nobody(rig, expects):
    stale(rig, expects)
    assert rig.post("abandon", {"why": "x"}, "after").result(0).accepted
