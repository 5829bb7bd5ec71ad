"""A signed audit is never altered; what a named person adds to it is shown wherever it is."""

import pytest

from daq.audit import seal
from daq.audit.apply import fold
from daq.audit.events import Addendum
from daq.audit.recompute import differences
from daq.audit.trend import latest, trend
from tests.words import en

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


def points(b):
    view = trend(b.state, b.setup.machine, b.today, latest(b.state.history, 10))
    return [[en(say) for say in each.addenda] for each in view.axes.nod.as_left.points]


def test_it_is_a_row_of_that_audit_and_alters_nothing_else(signed):
    before, rows = signed.state, list(signed.events)
    (made,) = signed.do("add-to-signed", sheet(signed, text=f"  {TEXT}  "))
    row = next(event.seq for event in rows if event.type == "Signed")
    assert made == Addendum(before.last.id, row, "gauge-number", TEXT, "T")
    assert (signed.events[:-1], signed.events[-1].audit) == (rows, before.last.id)
    after = signed.state
    assert (after.seq, after.last, after.history) == (before.seq, before.last, before.history)
    signed.do("add-to-signed", sheet(signed, kind="finding", text="Later."))
    assert [row.what.text for row in signed.state.addenda[before.last.id]] == [TEXT, "Later."]
    assert list(differences(signed.events, signed.chunks.__getitem__)) == []


def test_it_is_shown_with_the_audit_and_in_the_trend(signed):
    assert points(signed) == [[]]
    signed.do("add-to-signed", sheet(signed))
    said = f"Wrong gauge number (T, 2026-06-01): {TEXT}"
    assert signed.console["notes"][0] == said
    assert points(signed) == [[said]]
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
