"""The gauge's unit key pressed in the middle of a check: the round goes on in the unit it shows."""

import pytest

from daq.audit.recompute import differences
from tests.audit.conftest import Bench
from tests.audit.stations import GOOD, TABLES, offering, opened, press, read, take

IN = {
    "runout": ("0.4 in below the nose", "6.3 in below the nose"),
    "travel": ("X at 3.94 in", "X at 11.81 in"),
}
NOTICED = {
    "noticed": lambda b, value: b.do("gauge-noted", {"code": "unit-changed"}, [value] * 10),
    "read": take,
}


def pressed(check, how, at=2):
    """So many stations read in mm; then the key is pressed, and it is noticed or read."""
    b = opened(Bench(offering()), check)
    values = GOOD[check]
    read(b, values[:at])
    b.unit = "in"
    NOTICED[how](b, values[at])
    return b, values[len(b.job.reads.taken) :]


@pytest.mark.parametrize("how", NOTICED)
@pytest.mark.parametrize("check", TABLES)
def test_every_station_is_told_in_the_unit_the_face_shows(check, how):
    b, _ = pressed(check, how)
    console = b.console
    names = [each["say"] for each in console["stations"]]
    assert console["unit"] == "in" and " in" in console["title"] and "mm" not in console["title"]
    assert not any("mm" in name for name in names)
    for name in IN[check]:
        assert any(name in each for each in names)
    done = [each for each in console["stations"] if each["state"] == "done"]
    for each, mm in zip(done, GOOD[check], strict=False):
        assert float(each["value"]) == pytest.approx(mm / 25.4, abs=1e-5)
    assert len(done) == len(b.job.reads.taken) >= 2


@pytest.mark.parametrize("how", NOTICED)
@pytest.mark.parametrize("check", TABLES)
def test_the_round_comes_to_the_same(check, how):
    whole = opened(Bench(offering()), check)
    *_, usual = read(whole, GOOD[check])
    b, rest = pressed(check, how)
    *_, done = read(b, rest)
    for found, known in zip(done.round.results, usual.round.results, strict=True):
        assert found.value_mm == pytest.approx(known.value_mm, abs=1e-9)
        # What is noticed takes its time: the drift is spread over it otherwise.
        assert found.doubt_mm == pytest.approx(known.doubt_mm, rel=0.05)
        assert (found.limit_mm, found.word) == (known.limit_mm, known.word)
    assert list(differences(b.events, b.chunks.__getitem__)) == []


@pytest.mark.parametrize("check", TABLES)
def test_taken_back_to_before_the_key_the_next_reading_says_it_again(check):
    b, _ = pressed(check, "read")
    b.do("undo")
    b.do("undo")
    assert len(b.job.reads.taken) == 1
    take(b, GOOD[check][1])
    assert b.console["unit"] == "in" and "mm" not in b.console["title"]
    *_, done = read(b, GOOD[check][2:])
    assert done.round.word == "in"


@pytest.mark.parametrize("check", TABLES)
def test_pressed_once_more_it_goes_on_in_the_first(check):
    b, _ = pressed(check, "noticed")
    b.unit = "mm"
    take(b, GOOD[check][2])
    assert b.console["unit"] == "mm" and "in " not in b.console["title"].replace("spindle", "")
    assert press(b)["payload"]["station"] == b.job.ahead.stations[3].key


@pytest.mark.parametrize("check", TABLES)
def test_pressed_when_all_is_read_the_figures_are_in_the_new_unit(check):
    b = opened(Bench(offering()), check)
    read(b, GOOD[check])
    in_mm = [float(each["value"]) for each in b.console["axes"]]
    b.unit = "in"
    b.do("gauge-noted", {"code": "unit-changed"}, [1.0] * 10)
    for row, mm in zip(b.console["axes"], in_mm, strict=True):
        assert float(row["value"]) == pytest.approx(mm / 25.4, abs=6e-5)
        assert "mm" not in f"{row['note']}{row['over']}"
