"""A service's own doctor: looks when asked and after a cut, one at a time, and holds nobody."""

import threading

import pytest

from daq.doctor import examine as examining
from daq.doctor.diagnosis import fine, look_here
from daq.doctor.rounds import AGAIN, Rounds
from daq.service.rise import Rise
from daq.words import said
from tests.patience import until
from tests.words import en

CUT = said("cut-off", how="killed", at="14:02")
HEALTH = {"gauges": {"arm": {"code": "ok", "say": ""}}, "held": ["inbox"]}


class Looks:
    """One look of the test's: what it finds, how often it was asked, and what it was told."""

    def __init__(self):
        self.found = [fine("clock", said("doctor-fine"))]
        self.patients = []
        self.go_on = threading.Event()
        self.go_on.set()

    def __call__(self, patient):
        self.patients.append(patient)
        self.go_on.wait()
        return self.found


@pytest.fixture
def looks(monkeypatch):
    made = Looks()
    monkeypatch.setattr(examining, "looks", lambda: {"clock": made})
    return made


@pytest.fixture
def rise():
    return Rise(lambda: None)


@pytest.fixture
def rounds(made, looks, rise):
    def make(cut=None):
        rounds = Rounds(made.patient(), lambda: HEALTH, rise, cut)
        rounds.settles_s = rounds.apart_s = 0.0
        return rounds

    return make


def short(rise):
    told = rise.now("mill", {})
    return told and en(told["say"])


def test_nothing_is_looked_at_before_somebody_asks(rounds, looks, rise):
    doctor = rounds()
    with doctor.working():
        assert (doctor.latest.n, doctor.busy) == (0, False)
        doctor.screens = lambda: (3, 240)
        doctor.ask()
        until(lambda: doctor.latest.n and not doctor.busy)
    assert doctor.latest.found == tuple(looks.found)
    (patient,) = looks.patients
    assert (patient.running.screens, patient.running.most_screens) == (3, 240)
    assert patient.running.held == ("inbox",)
    assert patient.running.gauges["arm"].code == "ok"
    assert short(rise) is None


def test_after_a_cut_it_looks_by_itself_and_all_screens_say_what_it_found(rounds, rise):
    with (doctor := rounds(CUT)).working():
        assert short(rise).startswith("headsweep was cut off soon after 14:02. On again")
        until(lambda: short(rise).endswith("On again, all is fine."))
        assert doctor.latest.n == 1


def test_what_is_not_fine_at_once_is_looked_at_again_and_then_left(rounds, looks, rise):
    looks.found = [
        look_here("backup", said("doctor-fine"), said("doctor-look-again")),
        look_here("clock", said("doctor-fine"), said("doctor-look-again")),
    ]
    with (doctor := rounds(CUT)).working():
        until(lambda: doctor.latest.n == 1 + AGAIN)
        assert short(rise).endswith("Look at: Clock and Backup.")
        looks.found = [fine("clock", said("doctor-fine"))]
        doctor.ask()
        until(lambda: doctor.latest.n == 2 + AGAIN)
    assert short(rise).endswith("Look at: Clock and Backup.")  # by then it is no news


def test_asked_ever_so_often_it_looks_once_at_a_time_and_not_where_a_look_is_held(
    rounds, looks, monkeypatch
):
    looks.go_on.clear()
    monkeypatch.setattr(examining.examine, "__defaults__", (0.01,))
    with (doctor := rounds()).working():
        for _ in range(20):
            doctor.ask()
        until(lambda: doctor.latest.n and not doctor.busy)
        assert doctor.latest.found[0].found.code == "doctor-no-end"
        doctor.ask()
        until(lambda: not doctor.busy)
        assert (doctor.latest.n, len(looks.patients)) == (1, 1)
        looks.go_on.set()
        until(lambda: not any(t.name == "look-clock" for t in threading.enumerate()))
        doctor.ask()
        until(lambda: doctor.latest.n == 2)
    assert doctor.latest.found == tuple(looks.found)
