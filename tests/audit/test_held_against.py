"""What the live number says, held against the stop-at or against what a bolt may do."""

from dataclasses import replace

import pytest

from daq.audit.aim import Aim, Turning
from daq.audit.parts import Leaning
from daq.says import language
from daq.squaring.adjuster import Adjust
from daq.squaring.tightening import Tighten
from tests.audit.conftest import Bench, setup_of
from tests.audit.nod_bolts import BOLTS, LOOSE_MM, setup
from tests.audit.rigid import Machinist, RigidHead, changed, mill, told

STOP_MM = 1.2


def seen(aim, face_mm, **more):
    """The state and the words of a number on the face."""
    against = aim.against(face_mm, **more)
    return against.state, language().words(against.say), language().words(against.more)


def turn(way, past_mm=0.0, unit="mm", digits=3):
    return Aim("arm", STOP_MM, unit, digits, Turning(STOP_MM, way, past_mm))


@pytest.mark.parametrize(("way", "back", "sign"), [("up", "down", 1.0), ("down", "up", -1.0)])
@pytest.mark.parametrize(("unit", "mm"), [("mm", 1.0), ("in", 25.4)])
def test_the_way_that_is_left_and_too_far_are_told_by_the_way_there(way, back, sign, unit, mm):
    aim = turn(way, unit=unit)
    assert seen(aim, STOP_MM - sign * 0.130 * mm) == (way, f"{way} 0.130 to go", "")
    assert seen(aim, STOP_MM - sign * 0.0004 * mm) == ("there", "There", "")
    assert seen(aim, STOP_MM + sign * 0.013 * mm) == (back, f"Too far: {back} 0.013", "")
    assert seen(aim, None) == ("unknown", "distance unknown", "")
    assert seen(aim, STOP_MM, keyed=True) == ("there", "There, when sent", "")


@pytest.mark.parametrize(("way", "back", "sign"), [("up", "down", 1.0), ("down", "up", -1.0)])
def test_where_it_is_to_go_past_and_come_back_going_past_is_no_mistake(way, back, sign):
    aim, been = turn(way, past_mm=0.05), False
    for ahead_mm, words in (
        (0.167, f"{way} 0.217, then back"),
        (0.000, f"{way} 0.050, then back"),
        (-0.030, f"{way} 0.020, then back"),
        (-0.050, f"Come back: {back} 0.050"),
        (-0.030, f"Come back: {back} 0.030"),
        (0.000, "There"),
        (0.002, f"{way} 0.002 to go"),
        (0.060, f"{way} 0.110, then back"),
        (-0.030, f"{way} 0.020, then back"),
    ):
        face_mm = STOP_MM - sign * ahead_mm
        been = aim.been(face_mm, been)
        assert seen(aim, face_mm, been=been)[1] == words


@pytest.mark.parametrize(("way", "back", "sign"), [("up", "down", 1.0), ("down", "up", -1.0)])
def test_inside_the_band_it_is_there_and_never_too_far(way, back, sign):
    aim = Aim("arm", STOP_MM, "mm", 3, Turning(STOP_MM, way, band_mm=0.0123))
    for counts in range(-12, 13):
        assert seen(aim, STOP_MM + counts / 1000)[:2] == ("there", "There")
    assert seen(aim, STOP_MM + sign * 0.013)[:2] == (back, f"Too far: {back} 0.013")
    assert seen(aim, STOP_MM - sign * 0.013)[:2] == (way, f"{way} 0.013 to go")


def test_from_any_distance_the_pointer_has_far_to_go_and_the_band_stays_in_sight():
    aim = Aim("arm", STOP_MM, "mm", 3, Turning(STOP_MM, "up", band_mm=0.004))
    for off_mm in (-2.0, -0.6, 0.3, 0.1234, -0.02, 0.017, 0.016):
        strip = aim.against(STOP_MM + off_mm).strip
        assert strip.at == pytest.approx(off_mm / 0.004 * strip.half)
        assert 0.8 <= abs(strip.at) <= 1.0 + 1e-9, "40 % of both halves or more"
    for off_mm in (-0.014, 0.0, 0.004):
        strip = aim.against(STOP_MM + off_mm).strip
        assert (strip.at, strip.half) == (pytest.approx(off_mm / 0.016), 1 / 4)
    assert aim.against(None).strip is None
    assert turn("up").against(STOP_MM).strip is None


def test_the_lean_is_told_with_each_number_and_not_without_one():
    leaning = Leaning(at_stop_mm=0.002, per_mm=-0.7, surest_mm=-0.5, least_mm=0.001, grows=0.1)
    turning = Turning(STOP_MM, "up", axis="Nod", leaning=leaning)
    aim = Aim("arm", STOP_MM, "mm", 3, turning)
    for beyond_mm, words in (
        (0.0, "Nod +0.002 ± 0.099 mm"),
        (-0.5, "Nod +0.352 ± 0.002 mm"),
        (0.01, "Nod -0.005 ± 0.100 mm"),
    ):
        assert language().words(aim.against(STOP_MM + beyond_mm).lean) == words
    assert aim.against(None).lean is None
    assert language().words(replace(aim, unit="in", digits=4).against(STOP_MM).lean) == (
        "Nod +0.0001 ± 0.0039 in"
    )


@pytest.mark.parametrize("limit", [0.010, 0.025, 0.1])
def test_no_number_is_asked_about_that_the_screens_call_there(limit):
    """The band in the record is that of the screens, and it is told."""
    m = Machinist(
        Bench(setup_of(limit=limit, nod_pivot=150.0, height=400.0)), RigidHead(mill(), 0, 0.3)
    )
    b = m.start().work("move").bench
    stop = b.job.stop
    shown_mm = float(b.console["stop_at"]["value"])
    within = f"stop within ± {stop.band_mm:.3f}" + (
        ": this limit is finer than the stop" if stop.finer else ""
    )
    assert b.console["stop_at"]["within"] == within
    for way in (1.0, -1.0):
        face_mm = shown_mm + way * stop.band_mm
        assert seen(b.aim, face_mm)[0] == "there"
        assert seen(b.aim, face_mm + way * 0.001)[0] != "there"


@pytest.mark.parametrize("nod_mm", [-0.21, -0.33, 0.271, 0.405])
def test_a_number_that_shows_the_stop_at_shown_is_there(nod_mm):
    """Steps of 0.0005 in: the stop-at itself lies between two of them."""
    made = setup_of(limit=0.025, nod_pivot=150.0, height=400.0)
    made = changed(made, gauge={"resolution": 0.0005 * 25.4})
    m = Machinist(Bench(made), RigidHead(mill(), 0.0, nod_mm))
    m.bench.unit = "in"
    m.start().work("move")
    shown_mm = float(m.bench.console["stop_at"]["value"]) * 25.4
    assert seen(m.bench.aim, shown_mm)[0] == "there"


def test_from_the_side_that_must_not_be_the_last_it_goes_past_first():
    nod = {"adjust": Adjust("worm", finish_raising="front")}
    made = changed(setup_of(limit=0.025, nod_pivot=150.0, height=400.0), nod=nod)
    m = Machinist(Bench(made), RigidHead(mill(), 0.0, -0.06)).start().work("move")
    b = m.bench
    shown = b.console["stop_at"]
    assert shown["past"]
    stop_mm = float(shown["value"])
    state, words, _ = seen(b.aim, stop_mm)
    assert (state, words) == (shown["way"], f"{shown['way']} {shown['past']}, then back")
    m.turn("nod", stop_mm)
    assert seen(b.aim, m.face(m.place), been=True)[0] == "there"


def bolted(limit_mm, passes=2):
    """Nod squared while loose, its bolts about to be pulled up; 1.100 at the front."""
    b = Bench(setup(nod={"tighten": Tighten(BOLTS, passes=passes, limit=limit_mm)})).start()
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    b.take("front", 1.200)
    b.do("loosened", {}, [1.200] * 10)
    b.do("stopped", {}, [LOOSE_MM] * 10)
    b.take("back", LOOSE_MM)
    b.take("front", LOOSE_MM)
    assert b.job.step == "tighten"
    return b


@pytest.mark.parametrize("limit_mm", [0.002, 0.0055, 0.006, 0.0060001, 0.05])
@pytest.mark.parametrize("moved_mm", [0.001, 0.002, 0.005, 0.006, 0.007, 0.050, 0.051])
@pytest.mark.parametrize("sense", [1.0, -1.0])
@pytest.mark.parametrize("earlier_mm", [None, 0.012])
def test_the_screens_call_over_what_the_record_calls_over(limit_mm, moved_mm, sense, earlier_mm):
    """A bolt of 0.006 is over a limit of 0.0055 although both are within half a count of it."""
    b = bolted(limit_mm)
    face_mm, done = LOOSE_MM, 0
    if earlier_mm is not None:
        face_mm, done = LOOSE_MM + earlier_mm, 1
        b.do("bolt", {"bolt": BOLTS[0]}, [face_mm] * 10)
    face_mm = round(face_mm + sense * moved_mm, 3)
    state, words, _ = seen(b.aim, face_mm)
    b.do("bolt", {"bolt": BOLTS[done]}, [face_mm] * 10)
    record = told(b, "BoltPulled")[-1]
    assert state == ("over" if record.over else "within")
    assert words.startswith(f"Moved {sense * moved_mm:+.3f}, allowed ")


def test_what_a_bolt_moved_stands_beside_its_limit_in_full():
    assert seen(bolted(0.0055).aim, LOOSE_MM + 0.006) == (
        "over",
        "Moved +0.006, allowed 0.0055",
        "Step 1 of 8",
    )


def test_a_bolt_counts_from_the_one_before_and_all_of_them_from_the_first():
    b = bolted(0.005)
    b.do("bolt", {"bolt": BOLTS[0]}, [LOOSE_MM + 0.012] * 10)
    face_mm = LOOSE_MM + 0.006
    words = ("Moved -0.006, allowed 0.005", "Step 2 of 8, +0.006 in all")
    assert seen(b.aim, face_mm) == ("over", *words)
    assert seen(b.aim, None) == ("unknown", "movement unknown", "Step 2 of 8")


def test_bolts_that_are_not_named_are_watched_together():
    m = Machinist(Bench(setup()), RigidHead(mill(), 0.0, 0.3)).start().work("tighten")
    aim = m.bench.aim
    words = "Moved -0.009 since the bolts were loose"
    assert seen(aim, aim.stop_face_mm - 0.009) == ("within", words, "")
