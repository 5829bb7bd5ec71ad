"""Whatever an audit is of and however far it came, its report is a sane one."""

import json
from dataclasses import replace

import jsonschema
import pytest

from daq.checks.sweep.rings import NamedRing
from daq.report.made import made as bytes_made
from daq.report.report import AuditReport
from daq.report.schema import report_schema
from tests.audit.conftest import setup_of
from tests.audit.rigid import changed
from tests.audit.stations import GOOD, RUNOUT, checks_of, opened, read
from tests.cards import READY
from tests.report.benches import (
    Bench,
    bytes_of,
    papered,
    record_of,
    signed,
    told_with,
)
from tests.web.scenes import SITUATIONS, made

FEW = {"morning-closer", "tap", "unsafe", "set-back"}
"""What differs most; the others are for the long run."""
EVERY = [pytest.param(n, marks=() if n in FEW else pytest.mark.long) for n in sorted(SITUATIONS)]


def paper_of(bench, **more):
    return AuditReport(record_of(bench, **more), told_with(bench, {"T": "Ada Stone"})).paper


def said_on(sections):
    """Every text of these sections."""
    found = []
    for section in sections:
        for block in section.blocks:
            for row in getattr(block, "rows", ()) or (getattr(block, "text", ""),):
                found += [row] if isinstance(row, str) else list(row)
    return " ".join(" ".join(found).split())


@pytest.mark.parametrize("name", EVERY)
def test_every_situation_has_a_report_of_the_published_form(name):
    bench = made(name)
    audits = [event.audit for event in bench.events if event.audit]
    if not audits:
        return
    record = record_of(bench, audits[-1])
    report = AuditReport(record, told_with(bench))
    found = json.loads(bytes_made(record, "json", told_with(bench)))
    jsonschema.validate(found, report_schema(), cls=jsonschema.Draft202012Validator)
    mark = report.paper.labels.mark
    assert ("NOT SIGNED" in mark) == (record.signed is None)
    assert ("PRACTICE" in mark) == (record.job.reason == "practice")
    assert report.paper.number.endswith("draft") == (record.signed is None)
    assert len(report.data.rows) == len(record.rows)


def test_a_run_out_is_a_report_of_its_own():
    setup = setup_of(limit=0.025)
    offering = papered(replace(setup, machine=replace(
        setup.machine, checks=checks_of({"runout": RUNOUT}))))  # fmt: skip
    bench = opened(Bench(offering), "runout")
    read(bench, GOOD["runout"])
    bench.do("cleared")
    bench.do("sign", {"done_by": "T"})
    paper = paper_of(bench)
    first = said_on(paper.first)
    assert paper.title == "Machine check: Spindle run-out"
    assert "As found" not in first and "Conforms" in first and "Run-out 10.0 mm" in first
    assert "says nothing of" not in first and "static, unloaded" in first


def test_what_was_measured_with_stands_there_with_its_papers_and_what_is_overdue():
    ring = NamedRing(
        "Ring, 200 mm", "dot", key="R-7", certificate="C-77", due=None, laboratory="Own room"
    )
    setup = papered(setup_of(nod_pivot=150.0), ring="R-7")
    setup = replace(setup, rings=(ring,))
    bench = Bench(changed(setup, gauge={"calibration_due": "2026-05-20"}))
    bench.do("open", {"reason": "scheduled"})
    bench.do("readied", {**READY, "wrench": "W-3", "thermometer": "T-1", "temperatures": "20 °C"})
    card = {"serial_number": "P-1", "ring": "R-7", "mark": "right"}
    bench.do("prepared", card)
    first = said_on(paper_of(bench).first)
    for each in (
        "Ring Ring, 200 mm R-7 C-77 Own room", "Torque wrench", "W-3", "C-881", "Thermometer",
        "T-1", "Own measuring room", "2026-05-20: overdue", "Done before it was read",
    ):  # fmt: skip
        assert each in first, each


def test_who_stands_for_it_proved_it_by_pin_or_did_not():
    bench = signed(reviewed_by="R")
    last = bench.events[-1]
    asker = {"role": "sign", "person": "T", "screen": "s", "address": "a"}
    bench.events[-1] = replace(last, cause={**last.cause, "asker": asker})
    assert said_on(paper_of(bench).first).count(f"proved by PIN, row {last.seq}") == 2
    bench.events[-1] = replace(last, cause={**last.cause, "asker": {"role": "practice"}})
    assert "name given, no PIN asked" in said_on(paper_of(bench).first)


def test_a_row_that_was_altered_is_called_so():
    bench = signed()
    record = record_of(bench)
    rows = tuple(
        replace(row, kept=replace(row.kept, sound=False)) if n == 3 else row
        for n, row in enumerate(record.rows)
    )
    paper = AuditReport(replace(record, rows=rows), told_with(bench)).paper
    assert said_on(paper.rest).count("ALTERED") == 2


def test_dates_are_the_signatures_own_in_the_shops_zone():
    """Signed in the hour that comes twice: 2026-10-25 in central Europe (directive 2000/84/EC)."""
    bench = signed()
    for utc_us, there in ((1_792_888_200, "02:30:00 +02:00"), (1_792_891_800, "02:30:00 +01:00")):
        last = bench.events[-1]
        stamp = replace(last.stamp, utc_us=utc_us * 1_000_000)
        bench.events[-1] = replace(last, stamp=stamp)
        assert f"2026-10-25 {there}" in said_on(paper_of(bench).first)
        assert json.loads(bytes_of(bench, "json"))["issue"]["issued"].endswith(there[-6:])
