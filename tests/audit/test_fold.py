"""The fold as a whole: a complete audit, replay, undo, refusals, what decisions depend on."""

import copy
import dataclasses
import json
from base64 import b64decode
from pathlib import Path

import pytest

from daq.audit.apply import fold
from daq.audit.codec import TYPES, VERSION, UnknownEvent, decode, encode
from daq.audit.events import Voided
from daq.audit.recompute import differences
from daq.audit.state import Closed, Shop
from daq.says import Language
from daq.settings import build
from daq.virtual import HeadModel, Machinist, Simulated
from daq.words import Event
from tests.words import en, troubled

GOLDENS = sorted((Path(__file__).parent / "golden").glob("*.jsonl"))


class Head(HeadModel):
    """A head as the advice models it: what the gauge shows at each position."""

    def __init__(self, side, nod, radius=100.0, nod_pivot=150.0):
        self.slope = {"side": side / (2 * radius), "nod": nod / (2 * radius)}
        self.radius, self.nod_pivot, self.lift = radius, nod_pivot, 1.0

    def at(self, position):
        side, nod, r = self.slope["side"], self.slope["nod"], self.radius
        reach = {"right": r * side, "left": -r * side, "front": r * nod, "back": -r * nod}
        return round(self.lift + reach[position] + self.nod_pivot * nod, 3)

    def reads(self, at):
        return self.at(at)

    def turn(self, axis, at, reads):
        gain = self.radius + (self.nod_pivot if axis == "nod" else 0.0)
        self.slope[axis] += (reads - self.at(at)) / gain

    def pull(self, axis, part):
        self.slope[axis] += self.shift


def work(b, head, shift=0.0, until="clear"):
    """Obey the console until that step; returns the number of moves."""
    head.shift = shift
    Machinist(Simulated(b, head, samples=10)).work(until)
    return b.job.moves.made


@pytest.fixture
def done(bench):
    """An audit worked from 0.5 mm out on both axes to the signature."""
    b = bench().start()
    moves = work(b, Head(side=0.5, nod=-0.5))
    assert moves == 2
    b.do("cleared")
    b.do("sign", {"done_by": "T", "last_good": "2026-01-05", "disposition": "none made since"})
    return b


def test_an_audit_from_start_to_signature(done):
    signed = done.shop.machine("mill").last.signed
    assert signed.verdict == "conforms"
    assert signed.moves == 2
    assert [r.word for r in signed.as_found.values()] == ["out", "out"]
    assert [r.word for r in signed.as_left.values()] == ["in", "in"]
    assert done.console["step"] == "signed"
    assert done.console["verdict"] == {"word": "in", "say": "Inside tolerance on both axes."}


def test_tightening_shift_is_taken_from_check_to_check(bench):
    b = bench().start()
    work(b, Head(side=0.5, nod=0.0), shift=2e-5)
    checks = [decode(e) for e in b.events if e.type == "CheckDone"]
    shifts = [c.shift_mm for c in checks if c.shift_mm is not None]
    assert shifts and shifts[0] == pytest.approx(200.0 * 2e-5, abs=0.0011)


def test_every_prefix_of_the_events_folds_to_the_state_there_was(done, bench):
    """Resume: the state after a kill is the fold of what was committed."""
    whole = fold(done.events)
    assert whole == done.shop
    partial = Shop()
    for n, event in enumerate(done.events, 1):
        partial = fold([event], partial)
        assert partial == fold(done.events[:n])


def test_replay_of_the_recorded_inputs_gives_the_same_events(done):
    assert list(differences(done.events, done.chunks.__getitem__)) == []


def test_an_event_that_was_not_decided_is_reported(done):
    events = list(done.events)
    at = next(i for i, e in enumerate(events) if e.type == "SweepDone")
    forged = {**events[at].data, "return_error_mm": 0.5}
    events[at] = dataclasses.replace(events[at], data=forged)
    found = list(differences(events, done.chunks.__getitem__))
    assert [d.seq for d in found] == [events[at].seq]
    ((change,),) = (each.changes for each in found)
    assert (change.path, change.recorded) == ("SweepDone.return_error_mm", 0.5)


def test_events_survive_the_ledger_format(done):
    """Each event's data goes through JSON and comes back equal."""
    for event in done.events:
        data = decode(dataclasses.replace(event, data=json.loads(json.dumps(event.data))))
        assert encode(data) == (event.type, event.v, event.data)


def test_undo_takes_back_one_command_and_what_was_computed_from_it(bench):
    b = bench().start()
    work(b, Head(side=0.5, nod=0.0), until="check")
    b.take("right", 1.0)
    before = b.job
    b.take("left", 1.4)
    assert b.job.step == "park"
    (voided,) = b.do("undo")
    assert isinstance(voided, Voided)
    types = {e.seq: e.type for e in b.events}
    assert [types[s] for s in voided.voids] == ["ReadingTaken", "CheckDone"]
    assert dataclasses.replace(b.job, since=before.since) == before
    assert [e.type for e in b.events[-3:]] == ["ReadingTaken", "CheckDone", "Voided"]


def test_a_finished_sweep_stays_listed(bench):
    b = bench().start()
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    assert b.refused("undo").code == "nothing-to-take-back"
    assert b.refused("again", {"why": ""}).code == "sweep-again-without-why"
    b.do("again", {"why": "chips on the ring"})
    done = b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    assert (done.number, done.why) == (2, "chips on the ring")


def test_turned_bolts_cannot_be_taken_back(bench):
    b = bench().start()
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    b.take("front", 1.200)
    b.do("loosened", {}, [1.18] * 10)
    assert b.refused("undo").code == "nothing-to-take-back"


def test_signing_asks_since_when_and_what_of_the_work(bench):
    b = bench().start()
    work(b, Head(side=0.5, nod=0.0))
    b.do("cleared")
    assert b.refused("sign", {"done_by": "T"}).code == "last-good-no-date"
    late = b.refused("sign", {"done_by": "T", "last_good": "2026-06-02"})
    assert late.code == "last-good-ahead" and "today (2026-06-01) or before" in en(late)
    assert b.refused("sign", {"done_by": "T", "last_good": "2026-01-05"}).code == "no-disposition"
    assert b.refused("sign", {"done_by": " "}).code == "signed-by-nobody"
    names = [f["name"] for f in b.console["actions"][0]["fields"]]
    assert names == ["done_by", "last_good", "disposition", "reviewed_by", "note"]


def test_after_angled_work_nothing_is_asked_about_the_past(bench):
    b = bench().start("after-angled-work")
    work(b, Head(side=0.5, nod=0.0))
    b.do("cleared")
    b.do("sign", {"done_by": "T"})
    assert b.shop.machine("mill").last.signed.verdict == "conforms"


def test_refusals_name_what_was_found_and_what_is_allowed(bench):
    b = bench()
    assert en(b.refused("take")) == "No audit is open on this machine."
    assert "scheduled" in en(b.refused("open", {"reason": "boredom"}))
    b.do("open", {"reason": "scheduled"})
    assert b.refused("open", {"reason": "scheduled"}).code == "audit-open"
    assert "'P-2'; its file says 'P-1'" in en(b.refused("prepared", {"serial_number": "P-2"}))
    assert "serial_number" in en(b.refused("prepared", {}))
    assert "found 'dance'; allowed: abandon, add-to-signed, again" in en(b.refused("dance"))
    assert b.refused("tightened").code == "not-this-step"
    b.do("abandon", {"why": "lunch"})
    assert b.console["step"] == "idle" and "abandoned" in b.console["detail"]


LONG = "§" * 5000


@pytest.mark.parametrize(
    ("kind", "payload"),
    [
        (LONG, {}),
        ("prepared", {"serial_number": LONG}),
        ("prepared", {"serial_number": 10**4000}),
        ("prepared", {"serial_number": "P-1", "ram_moved": 10**400}),
        ("prepared", {"serial_number": "P-1", "ram_moved": True, "ram_angle": LONG}),
        ("prepared", {"serial_number": "P-1", "ram_moved": True, "ram_angle": f"70{' ' * 900}deg"}),
        ("prepared", {"serial_number": "P-1", LONG: 1}),
        ("prepared", {"serial_number": [LONG]}),
        ("open", {"reason": LONG}),
    ],
    ids=range(9),
)
def test_a_refusal_repeats_a_line_of_what_it_found_and_no_more(bench, kind, payload):
    b = bench()
    if kind != "open":
        b.do("open", {"reason": "scheduled"})
    said = en(b.refused(kind, payload))
    assert said.count("§") <= 120
    assert len(said) < 600


def test_a_gauge_is_bound_to_one_open_audit_at_most(bench):
    first = bench()
    first.do("open", {"reason": "scheduled"})
    other = bench()
    other.machine = "lathe"
    other.shop = first.shop
    said = other.refused("open", {"reason": "scheduled"})
    assert (said.code, said.of["audit"]) == ("gauge-in-use", first.job.short)


def test_an_unknown_event_stops_the_fold(done):
    strange = dataclasses.replace(done.events[-1], type="Teleported")
    with troubled(UnknownEvent, match="found Teleported"):
        fold([strange])


@pytest.mark.parametrize(("by", "whose"), [(-1, "an older"), (1, "a newer")])
def test_a_row_of_another_release_is_refused_and_says_which(done, by, whose):
    other = dataclasses.replace(done.events[0], v=VERSION + by)
    said = (
        f"ledger row 1: found AuditOpened of version {VERSION + by}, which {whose} release wrote; "
        f"allowed: version {VERSION}"
    )
    with troubled(UnknownEvent, match=f"^{said}$"):
        fold([other])


@pytest.mark.parametrize("path", GOLDENS, ids=lambda path: path.stem)
def test_the_golden_ledger_of_every_release_still_folds(path):
    """A ledger written by an earlier release; it must give the state recorded beside it."""
    events, _ = read_golden(path)
    expected = json.loads(path.with_suffix(".state.json").read_text(encoding="utf-8"))
    # A field that came after that release has its default.
    (state,) = fold(events).machines.values()
    assert state.last == build(Closed, expected, path.stem, quantities="plain")
    assert {e.type for e in events} <= set(TYPES)


def read_golden(path):
    """The events of a golden ledger, and its evidence by digest."""
    rows = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]
    bodies = [json.loads(row["body"]) for row in rows if "body" in row]
    events = [build(Event, body, "golden", quantities="plain") for body in bodies]
    chunks = {row["digest"]: b64decode(row["bytes"]) for row in rows if "digest" in row}
    return [event for event in events if event.machine], chunks


@pytest.mark.parametrize("path", GOLDENS, ids=lambda path: path.stem)
def test_in_another_language_the_record_decides_the_same(path, monkeypatch):
    """What is on record is codes and numbers: not one of them hangs on how it is worded."""
    monkeypatch.setattr(Language, "words", lambda _, said: "x" * len(str(said)))
    events, chunks = read_golden(path)
    assert list(differences(events, chunks.__getitem__)) == []


def numbers(said, at=()):
    """The way to each number that stands in what is said, nested ones included."""
    for name, value in said["of"].items():
        if isinstance(value, dict) and "code" in value:
            yield from numbers(value, (*at, "of", name))
        elif isinstance(value, dict):
            yield (*at, "of", name, "mm" if "mm" in value else "value")


@pytest.mark.parametrize("path", GOLDENS, ids=lambda path: path.stem)
def test_another_number_in_what_was_said_is_another_decision(path):
    events, chunks = read_golden(path)
    told = [(i, at) for i, e in enumerate(events) if e.data.get("said")
            for at in numbers(e.data["said"])]  # fmt: skip
    assert len(told) > 3
    for i, at in told:
        data = copy.deepcopy(events[i].data)
        inner = data["said"]
        for key in at[:-1]:
            inner = inner[key]
        inner[at[-1]] += 0.001
        forged = [*events[:i], dataclasses.replace(events[i], data=data), *events[i + 1 :]]
        assert next(differences(forged, chunks.__getitem__)).seq == events[i].seq
