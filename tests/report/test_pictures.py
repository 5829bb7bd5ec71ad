"""The pictures of real audits and of a long run: against their rows, numpy, and on paper."""

import re
import subprocess

import numpy as np
import pytest
import typst

from daq.audit import evidence
from daq.audit.events import BoltPulled, Moved, Parked, SweepDone, Tightened
from daq.ledger.view import LedgerView
from daq.report.fitted import remains
from daq.report.pictures import has_picture, of_row
from daq.report.run_pictures import KEYS, of_trend
from daq.says import language
from daq.words import POSITIONS
from tests.audit import worn
from tests.plots import seen


@pytest.fixture(scope="module")
def drawn(data, records):
    """Every picture of both audits, by its row."""
    found = {}
    with LedgerView.open(data) as view:
        for record in records:
            for row in record.rows:
                pictures = of_row(
                    record, row, language(), {}, lambda d: evidence.decode(view.chunk(d))
                )
                assert bool(pictures) == has_picture(record, row)
                found[row.seq] = (record, row, pictures)
    return found


def of_type(drawn, kind):
    return [each for each in drawn.values() if isinstance(each[1].data, kind)]


def per(picture):
    """Millimetres in the unit that a picture is told in: the gauge's, as it was then."""
    return 25.4 if re.search(r"\bin\b(?! the)", picture.table.caption) else 1.0


def test_the_unit_is_the_gauges_at_that_moment(drawn):
    units = {per(picture) for _, _, pictures in drawn.values() for picture in pictures}
    assert units == {1.0, 25.4}, "the unit key was pressed in the first audit"


def test_what_remains_is_what_least_squares_leave(drawn):
    """Textbook linear least squares, by numpy; of four places that is the spare equation's."""
    for _, row, _ in of_type(drawn, SweepDone):
        done = row.data
        turn = np.radians([POSITIONS[each.position] for each in done.points])
        read = np.array([each.pushed_mm for each in done.points])
        design = np.column_stack([np.ones_like(turn), np.cos(turn), np.sin(turn)])
        left = read - design @ np.linalg.lstsq(design, read, rcond=None)[0]
        assert remains(done) == pytest.approx(left, abs=1e-9)
        assert [abs(each) for each in remains(done)] == pytest.approx([abs(done.spare_mm)] * 4)


def test_a_sweep_says_which_end_is_low_as_its_results_do(drawn):
    for record, row, (picture,) in of_type(drawn, SweepDone):
        side, nod = picture.table.rows[-2:]
        for cells, axis in ((side, "side"), (nod, "nod")):
            d_mm = row.data.results[axis].d_mm
            assert float(cells[1]) * per(picture) == pytest.approx(d_mm, abs=2e-3)
            low = {"side": ("right end low", "left end low"), "nod": ("nodded down", "nodded up")}
            told = low[axis][d_mm < 0.0] if float(cells[1]) else "level"
            assert cells[3].startswith(told)
        gauge = record.opened.setup.gauge
        for cells, point in zip(picture.table.rows, row.data.points, strict=False):
            face_mm = gauge.face(point.pushed_mm)
            assert float(cells[1]) * per(picture) == pytest.approx(face_mm, abs=2e-3)


def test_the_samples_of_a_reading_are_those_its_row_names(drawn, data):
    with LedgerView.open(data) as view:
        for record, row, pictures in drawn.values():
            taken = [each.reading for each in record.readings if each.row.seq == row.seq]
            if not taken or isinstance(row.data, Moved):
                continue
            (reading,), (picture,) = taken, pictures
            samples = evidence.decode(view.chunk(reading.evidence))
            assert f": {len(samples)} sample" in picture.table.caption
            (mean, *rows) = picture.table.rows
            assert float(mean[1]) * per(picture) == pytest.approx(reading.mean_mm, abs=2e-3)
            values = [float(cells[1]) * per(picture) for cells in rows]
            assert values == pytest.approx([each.value_mm for each in samples], abs=2e-3)
            (window,) = seen.of_class(seen.parsed(picture.svg), "window")
            assert float(window.get("width")) > 0.0


def test_a_move_goes_from_its_base_to_its_end_past_the_stop_at(drawn):
    for record, row, (picture,) in of_type(drawn, Moved):
        before = [each.data for each in record.rows if each.seq < row.seq]
        stop = next(d.stop for d in reversed(before) if isinstance(d, Parked) and d.stop)
        lines = picture.table.rows[:3]
        told = {says.rpartition(" ")[0]: float(at) * per(picture) for says, at, _ in lines}
        ended = row.data.reading.mean_mm
        wanted = {"began at": stop.base_face_mm, "ended at": ended, "stop at": stop.stop_face_mm}
        assert told == pytest.approx(wanted, abs=2e-3)
        assert ended - stop.stop_face_mm == pytest.approx(row.data.past_face_mm)


def test_a_tightening_shows_every_bolt_in_its_order(drawn):
    shown = [each for each in of_type(drawn, Tightened) if each[2]]
    assert shown
    for record, row, (picture,) in shown:
        bolts = [
            each.data.bolt
            for each in record.rows
            if isinstance(each.data, BoltPulled) and each.seq < row.seq
            and each.data.axis == row.data.axis and each.voided_by is None
        ]  # fmt: skip
        named = [remark for _, value, remark in picture.table.rows if not value]
        assert named and bolts[-len(named) :] == named


def test_samples_that_are_gone_leave_a_picture_that_says_so(drawn):
    record, row, _ = of_type(drawn, Moved)[0]
    (picture,) = of_row(record, row, language(), {}, lambda digest: ())
    assert "Its samples are not there." in picture.svg


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_run_shows_what_the_trend_says_in_the_machines_own_unit(unit):
    view = worn.view(30, unit)
    per, digits = (1.0, 3) if unit == "mm" else (25.4, 4)
    picture = of_trend(view, language(), {}, link=lambda audit: f"/records/{audit}")["run-nod"]
    nod = view.axes.nod
    assert f"{unit} over {'300 mm' if unit == 'mm' else '11.8 in'}" in picture.table.caption
    found = {each.short: each.value_mm for each in nod.as_found.points}
    for cells, left in zip(picture.table.rows, reversed(nod.as_left.points), strict=True):
        assert cells[0] == left.short
        assert float(cells[3]) == pytest.approx(left.value_mm / per, abs=0.6 * 10**-digits)
        assert (cells[2] != "") == (left.short in found)
    told = seen.words(seen.parsed(picture.svg))
    for limit in (nod.as_found.limits.low_mm, nod.as_found.limits.high_mm):
        assert f"control limit {limit / per:+.{digits}f}" in told
    links = [href for _, href, _ in seen.audits(seen.parsed(picture.svg))]
    assert links == [f"/records/{worn.ident(n)}" for n in range(30)]


def test_each_odd_audit_is_hollow_with_its_reason():
    picture = of_trend(worn.view(30), language(), {})["run-nod"]
    titles = {
        title.split()[0]: (title, paths)
        for title, _, paths in seen.audits(seen.parsed(picture.svg))
    }
    reasons = {
        "A-0004": "After a crash.",
        "A-0009": "Started after angled work",
        "A-0014": "off scale, beyond 1.2 mm at back",
        "A-0019": "The clock was not set",
    }
    for short, (title, paths) in titles.items():
        assert any(kind == "hollow" for kind, _ in paths) == (short in reasons), title
        assert reasons.get(short, "") in title
        (cells,) = (each for each in picture.table.rows if each[0] == short)
        assert reasons.get(short, "") in cells[-1]


def test_a_tightening_of_an_unsure_date_is_one_hollow_dot_and_nothing_else():
    root = seen.parsed(of_trend(worn.view(30), language(), {})["shift-nod"].svg)
    drawn = {title.split()[0]: paths for title, _, paths in seen.audits(root)}
    ((kind, path),) = drawn["A-0019"]
    assert (kind, len(seen.dots(path)), seen.squares(path)) == ("hollow", 1, [])
    assert "hollow: see remarks" in seen.words(root)


def test_a_drift_is_told_with_its_way_and_since_when():
    """By the trend's own judgement: the first of the latest smoothed values that are all out."""
    shown = of_trend(worn.view(60), language(), {})["run-nod"]
    points = [each for each in worn.view(60).axes.nod.as_found.points if each.smoothed]
    inside = [n for n, each in enumerate(points) if not each.smoothed.outside]
    since = points[inside[-1] + 1]
    told = f"Drifting since {since.day} (audit {since.short}): nodded down."
    assert shown.headline == told and f"<desc>{told} As found: " in shown.svg
    assert of_trend(worn.view(7), language(), {})["run-nod"].headline == ""


def test_a_machine_without_audits_has_every_picture_and_says_so():
    pictures = of_trend(worn.view(0), language(), {})
    assert tuple(pictures) == KEYS
    assert "No signed audit yet." in pictures["run-side"].svg
    assert "Nothing was tightened yet." in pictures["shift-nod"].svg
    assert [row[0] for row in pictures["pivot-nod"].table.rows] == ["now"]


def test_every_picture_is_drawn_on_paper_with_its_words(drawn, tmp_path):
    kinds = (SweepDone, Moved, Parked)
    pictures = [of_type(drawn, kind)[0][2][0] for kind in kinds]
    pictures += [next(each[2][0] for each in of_type(drawn, Tightened) if each[2])]
    pictures += of_trend(worn.view(60), language(), {}).values()
    pages = []
    for n, picture in enumerate(pictures):
        (tmp_path / f"{n}.svg").write_text(picture.svg, encoding="utf-8")
        pages.append(f'#image("{n}.svg", width: 100%)')
    (tmp_path / "all.typ").write_text("#set page(margin: 1cm)\n" + "#pagebreak()\n".join(pages))
    pdf = tmp_path / "all.pdf"
    pdf.write_bytes(typst.compile(tmp_path / "all.typ", ignore_system_fonts=True))
    text = subprocess.run(
        ["pdftotext", "-layout", pdf, "-"], capture_output=True, check=True
    ).stdout
    for page, picture in zip(text.decode().split("\f"), pictures, strict=False):
        told = [words for words in seen.words(seen.parsed(picture.svg)) if words.strip()]
        assert told and not [each for each in told if each.split()[0] not in page]
    grey = ["pdftoppm", "-gray", "-r", "40", pdf]
    shown = subprocess.run(grey, capture_output=True, check=True).stdout
    assert min(shown) < 60 < max(shown), "dark lines on white"
