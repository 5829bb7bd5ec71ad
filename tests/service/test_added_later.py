"""What was added to a signed audit, on a real record: read with the audit, exported, counted."""

import io

from daq.audit import history as history_room
from daq.ledger.commands import export, show
from daq.service.trends import Trends
from tests.independent.verify_export import check
from tests.service.rig import MILL
from tests.service.test_people import ANN, cleared, done, signed
from tests.words import en, told

TEXT = "The number on the housing is P-0418: " + "x" * 100


def added(rig, audit, *texts):
    for text in texts:
        payload = {"audit": audit, "kind": "gauge-number", "text": text, "done_by": ANN}
        done(rig, "add-to-signed", payload)


def shown(rig, most, before=None):
    """What stands beside each audit of a page of the trend, oldest first."""
    trends = Trends({}, rig.decider.shop, rig.clock, rig.ledger.path.parent)
    view = told(trends.of(MILL, most, before), rig.hub.people)
    series = [axis[each] for axis in view["axes"].values() for each in ("as_found", "as_left")]
    (same, *others) = [[point["addenda"] for point in each["points"]] for each in series]
    assert all(other == same for other in others)
    return same, view["more"]


def test_it_stands_with_the_audit_in_the_record_its_export_and_the_trend(rig):
    cleared(rig)
    done(rig, "sign", {"done_by": ANN})
    (row,) = signed(rig)
    added(rig, row.audit, TEXT)
    folder = rig.ledger.path.parent
    out = io.StringIO()
    show(folder, out, row.audit[:8])
    assert TEXT in out.getvalue().splitlines()[-1]
    lines = io.StringIO()
    assert export(folder, lines, en, evidence=True) == 0
    seq = rig.ledger.seq
    found = check(lines.getvalue().splitlines(), [(seq, rig.ledger.head)])
    assert found[:2] == (seq, rig.ledger.head)
    ((texts,), _) = shown(rig, 10)
    assert texts == [f"Wrong gauge number ({ANN}, 2023-11-14, clock not set): {TEXT}"]


def test_of_audits_that_the_machine_keeps_no_more_it_is_read_from_the_record(rig, monkeypatch):
    monkeypatch.setattr(history_room, "KEPT", 1)
    for _ in range(3):
        cleared(rig)
        done(rig, "sign", {"done_by": ANN})
    rows = signed(rig)
    assert shown(rig, 3)[0] == [[], [], []]
    added(rig, rows[0].audit, "a", "b")
    added(rig, rows[2].audit, *"cdefghi")
    first, middle, last = shown(rig, 3)[0]
    assert [text[-1] for text in first] == ["b", "a"] and middle == []
    assert [text[-1] for text in last[:-1]] == list("ihgfe")
    assert last[-1] == "2 things were added before that."
    (newest,), more = shown(rig, 1)
    assert newest == last
    assert shown(rig, 2, more)[0] == [first, middle]
