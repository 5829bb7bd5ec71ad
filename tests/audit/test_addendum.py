"""A signed audit is never altered; what a named person adds to it is shown wherever it is."""

from dataclasses import replace

import pytest

from daq.audit import seal
from daq.audit.apply import fold
from daq.audit.events import Addendum
from daq.audit.history import KEPT_LATER, AddedSince
from daq.audit.recompute import differences
from daq.audit.trend import dues
from tests.audit.conftest import Bench
from tests.audit.stations import bar, offering, opened, read

TEXT = "The number on the housing is P-2, not P-1."


@pytest.fixture
def signed(bench):
    b = bench()
    b.start()
    b.sweep(1.0, 1.0, 1.0, 1.0)
    b.do("cleared")
    b.do("sign", {"done_by": "T"})
    return b


def sheet(b, **other):
    audit = b.state.last.id
    return {"audit": audit, "kind": "gauge-number", "text": TEXT, "done_by": "T"} | other


def unmarked(state):
    """A machine's state without the marks of what was added."""
    audits = tuple(replace(each, later=0) for each in state.history.latest)
    last, history = replace(state.last, later=AddedSince()), replace(state.history, latest=audits)
    return replace(state, last=last, history=history)


def test_it_is_a_row_of_that_audit_and_alters_nothing_else(signed):
    before, rows = signed.state, list(signed.events)
    (made,) = signed.do("add-to-signed", sheet(signed, text=f"  {TEXT}  "))
    row = next(event.seq for event in rows if event.type == "Signed")
    assert made == Addendum(before.last.id, row, "gauge-number", TEXT, "T")
    assert (signed.events[:-1], signed.events[-1].audit) == (rows, before.last.id)
    assert unmarked(signed.state) == before
    signed.do("add-to-signed", sheet(signed, kind="finding", text="Later."))
    assert [row.what.text for row in signed.state.last.later.latest] == [TEXT, "Later."]
    assert signed.state.history.latest[-1].later == 2
    assert list(differences(signed.events, signed.chunks.__getitem__)) == []


def test_it_is_shown_with_the_audit(signed):
    signed.do("add-to-signed", sheet(signed))
    assert signed.console["notes"][0] == f"Wrong gauge number (T, 2026-06-01): {TEXT}"
    signed.do("add-to-signed", sheet(signed, kind="finding", text="Later."))
    newest, more, *_ = signed.console["notes"]
    assert newest == "Found later (T, 2026-06-01): Later."
    assert more == "One thing was added before that."
    assert signed.console["stands"][0] == f"Wrong gauge number (T, 2026-06-01): {TEXT}"
    (head, *_) = dues(signed.state, signed.setup.machine, signed.today)
    assert head.addenda == 2
    one = next(a for a in signed.console["actions"] if a["kind"] == "add-to-signed")
    assert one["payload"] == {"audit": signed.state.last.id}
    assert [field["name"] for field in one["fields"]] == ["kind", "text", "done_by"]


@pytest.mark.parametrize(
    ("wrong", "code"),
    [
        ({"audit": "no-such"}, "addendum-not-signed"),
        ({"text": " "}, "addendum-text"),
        ({"text": "x" * 201}, "addendum-text"),
        ({"done_by": " "}, "addendum-by-nobody"),
        ({"kind": "verdict"}, "payload"),
    ],
)
def test_what_will_not_do_is_refused(signed, wrong, code):
    assert signed.refused("add-to-signed", sheet(signed, **wrong)).code == code


def test_an_audit_that_is_open_or_given_up_has_none(bench):
    b = bench()
    b.start()
    unsigned = {"audit": b.job.id, "kind": "other", "text": "x", "done_by": "T"}
    assert b.refused("add-to-signed", unsigned).code == "addendum-not-signed"
    b.abandon("called away")
    assert b.refused("add-to-signed", unsigned).code == "addendum-not-signed"


def test_it_may_come_while_another_audit_is_open_and_outlives_a_seal(signed):
    signed.start()
    payload, seq = sheet(signed), signed.state.seq
    signed.do("add-to-signed", payload)
    assert (signed.state.seq, signed.job.step) == (seq, "as-found")
    what = seal.decode(seal.encode(seal.sealed(signed.shop)))
    rows = lambda audit: (event for event in signed.events if event.audit == audit)  # noqa: E731
    assert seal.restored(what, signed.events[-1].seq, rows) == signed.shop == fold(signed.events)


def test_what_a_machine_keeps_of_it_does_not_grow(signed):
    def kept():
        return len(seal.encode(seal.sealed(signed.shop)))

    for _ in range(KEPT_LATER):
        signed.do("add-to-signed", sheet(signed))
    before = kept()
    for _ in range(3 * KEPT_LATER):
        signed.do("add-to-signed", sheet(signed))
    assert kept() - before < 20, "no more than longer numbers of rows"
    assert "15 things were added before that." in signed.console["stands"]
    older = sheet(signed)
    signed.start()
    signed.sweep(1.0, 1.0, 1.0, 1.0)
    signed.do("cleared")
    signed.do("sign", {"done_by": "T"})
    before = kept()
    for _ in range(3):
        signed.do("add-to-signed", older)
    assert kept() == before
    assert [each.later for each in signed.state.history.latest] == [4 * KEPT_LATER + 3, 0]
    assert not [note for note in signed.console["notes"] if TEXT in note]


def test_another_check_is_marked_too():
    b = Bench(offering())
    read(opened(b, "runout"), bar(0.004))
    b.do("cleared")
    b.do("sign", {"done_by": "T"})
    b.do("add-to-signed", sheet(b))
    assert [each.addenda for each in dues(b.state, b.setup.machine, b.today)] == [0, 1, 0]
    assert b.console["notes"][0].endswith(TEXT)
