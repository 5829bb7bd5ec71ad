"""A disk that fails under the service: its alarm goes when a commit came through, not before."""

from dataclasses import replace

import apsw
import pytest

from daq.ledger.verify import verify
from daq.service.turns import STILL_NS
from tests.ledger.tap import tapped
from tests.service.rig import Rig
from tests.words import en

LOOK_NS = 2_000_000_000
"""How often the disk is looked at."""

FULL = (apsw.FullError, "the disk is full")
FAILING = (apsw.IOError, "the disk reported an error")
READ_ONLY = (apsw.ReadOnlyError, "read-only")


@pytest.fixture
def tap():
    with tapped() as tap:
        yield tap


@pytest.fixture
def rig(tap, tmp_path, config, clock, sample):
    made = Rig(tmp_path / "data", config, clock, sample)
    yield made
    tap.disarm()
    made.decider.close("over")


def press(rig, command_id):
    return rig.post("open", {"reason": "practice"}, command_id).result(0)


def looked_at(rig):
    """The recording as shown once the disk was looked at again."""
    rig.clock.ns += LOOK_NS
    rig.decider.tick()
    return dict(rig.hub.snapshot("practice-mill").recording)


@pytest.mark.parametrize("call", ["write", "sync"])
@pytest.mark.parametrize(("error", "say"), [FULL, FAILING, READ_ONLY])
def test_a_disk_that_fails_for_ever_is_never_called_well(rig, tap, call, error, say):
    """There is room on it all the time."""
    tap.arm(1, for_ever=True, error=error, only=call)
    ack = press(rig, "c1")
    # What failed in a flush, and cannot be written over, the next start may find.
    known = error is not apsw.IOError
    assert ack.code == ("not-recorded" if known else "not-known")
    assert en(ack.reason).startswith("Not recorded: " if known else "Not known whether recorded: ")
    for _ in range(5):
        tap.struck = False
        recording = looked_at(rig)
        assert not recording["ok"]
        assert en(recording["say"]).startswith("NOT RECORDED: ") and say in en(recording["say"])
        assert tap.struck, "no commit was tried"
        assert not rig.hub.health()["ok"]
    tap.disarm()
    assert looked_at(rig) == {"ok": True, "say": ""}
    assert press(rig, "c1").seqs == (2,)


@pytest.mark.parametrize("call", ["write", "sync"])
def test_a_disk_that_failed_once_is_well_after_a_commit(rig, tap, call):
    tap.arm(1, for_ever=False, error=apsw.IOError, only=call)
    assert press(rig, "c1").code == "not-recorded"
    assert tap.struck
    head = rig.ledger.head
    tap.disarm()
    tap.calls.clear()
    assert looked_at(rig) == {"ok": True, "say": ""}
    assert tap.calls[-1] == ("sync", "ledger.db-wal")
    assert (rig.ledger.seq, rig.ledger.head) == (1, head), "looking leaves no row"
    assert verify(rig.ledger.path.parent).ok


def test_room_again_is_not_enough_while_the_disk_fails(rig, tap, monkeypatch):
    """Full, and failing by the time there is room: the alarm has another reason, and stays."""
    room = rig.ledger.room
    monkeypatch.setattr(rig.ledger, "room", lambda wanted=0: room(2**60))
    assert en(looked_at(rig)["say"]).startswith("NOT RECORDED from now on: ")
    monkeypatch.undo()
    tap.arm(1, for_ever=True, error=apsw.IOError, only="sync")
    assert en(looked_at(rig)["say"]).startswith("NOT RECORDED: ")
    tap.disarm()
    assert looked_at(rig)["ok"]


def test_a_disk_that_is_well_is_not_written_to_by_looking_at_it(rig, tap):
    press(rig, "c1")
    tap.calls.clear()
    for _ in range(3):
        assert looked_at(rig)["ok"]
    assert {call for call, _ in tap.calls} <= {"read"}


@pytest.mark.parametrize("name", ["ledger.db", "ledger.db-wal"])
def test_a_file_that_is_gone_acknowledges_nothing_and_is_on_the_screens(rig, name):
    """Not even what was recorded while it was there: nobody can find it again."""
    assert press(rig, "c1").accepted
    path = rig.ledger.path.with_name(name)
    aside = path.rename(path.with_name("aside"))
    for command_id in ("c1", "c2"):
        ack = press(rig, command_id)
        assert (ack.accepted, ack.code) == (False, "not-recorded")
        assert f"{name}: the file is gone" in en(ack.reason)
        assert not rig.hub.snapshot("practice-mill").recording["ok"], "at once"
    assert en(looked_at(rig)["say"]).startswith("NOT RECORDED: ")
    assert not rig.hub.health()["ok"]
    aside.rename(path)
    assert looked_at(rig) == {"ok": True, "say": ""}
    assert press(rig, "c1").seqs == (2,)


def test_a_file_that_goes_is_on_the_screens_before_the_next_press(rig):
    path = rig.ledger.path
    path.rename(path.with_name("aside"))
    assert "the file is gone" in en(looked_at(rig)["say"])


def test_while_recording_does_not_answer_there_is_nothing_to_press(rig):
    def pages():
        return rig.hub.snapshot("practice-mill").pages

    before = pages()
    assert before["console"].actions
    rig.clock.ns += STILL_NS
    assert pages()["console"] == replace(before["console"], actions=())
    assert pages()["wall"] == before["wall"]
    rig.decider.tick()
    assert pages() == before
