"""The doctor's lines on the setup page and in the API, and the word after a cut taken away."""

import pytest

from daq.doctor.diagnosis import fine, look_here
from daq.doctor.patient import Patient
from daq.doctor.rounds import Examined, Rounds
from daq.words import said
from tests.web.test_setup_page import FakeSetup
from web.app import create_app

FOUND = (
    look_here("clock", said("doctor-no-end", seconds=3), said("doctor-look-again")),
    fine("disk", said("doctor-fine")),
)


@pytest.fixture
def doctor(hub, tmp_path):
    return Rounds(Patient(tmp_path, tmp_path), dict, hub.rise, None)


@pytest.fixture
def client(hub, inbox, doctor):
    return create_app(hub, inbox, setup=FakeSetup(), doctor=doctor).test_client()


def test_whoever_asks_first_has_it_look(client, doctor):
    first = client.get("/api/doctor").json
    assert first == {"n": 0, "busy": True, "lines": []}
    assert doctor.busy


def test_what_was_found_stands_there_before_any_script_runs(client, doctor):
    doctor.latest = Examined(1, FOUND)
    text = client.get("/setup").text
    assert "Clock: not done within 3 s<strong>Run headsweep doctor once more" in text
    assert '<span data-part="doctor-count">1</span> fine' in text
    assert "Disk: fine" in text
    assert not doctor.busy


def test_the_api_gives_the_same_and_looks_again_when_told_to(client, doctor):
    doctor.latest = Examined(4, FOUND)
    told = client.get("/api/doctor").json
    assert (told["n"], told["busy"]) == (4, False)
    assert [(line["fine"], line["found"]) for line in told["lines"]] == [
        (False, "Clock: not done within 3 s"),
        (True, "Disk: fine"),
    ]
    assert told["lines"][1]["todo"] == ""
    assert client.post("/api/doctor", json={}).json["busy"]
    assert doctor.busy


def test_it_is_told_how_many_screens_are_open(client, doctor):
    assert doctor.screens() == (0, 240)


def test_without_one_the_page_has_no_such_part(hub, inbox):
    client = create_app(hub, inbox, setup=FakeSetup()).test_client()
    assert "doctor" not in client.get("/setup").text
    assert client.get("/api/doctor").status_code == 404


def test_the_word_after_a_cut_is_taken_away_by_whoever_has_read_it(client, hub):
    hub.rise.say(said("cut-off", how="power", at="14:02"), ())
    assert hub.rise.now("mill", {})
    assert client.post("/api/cut-off/read", json={}).json == {
        "say": "It is taken from all screens."
    }
    assert hub.rise.now("mill", {}) is None
