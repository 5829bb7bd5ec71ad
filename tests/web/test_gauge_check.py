"""The check of a gauge over HTTP: who may begin it, what is refused, and its certificate."""

import pytest

from daq.service.clock import SystemClock
from daq.service.rights import pins
from daq.service.rights.access import Access
from daq.words import SaidTrouble, said
from daq.words.gauge_check import CheckableGauge, GaugeCheckView
from tests.entry import PIN, QUICK, enrolled, paired
from tests.report.test_gauge_check import data as with_checks
from web.app import create_app
from web.rights import HEADER

CHECK = {"gauge": "arm", "blocks": "set", "state": "found", "temperature": "21 °C", "rested": "2 h"}
BUSY = said("bench-in-audit", machine="mill-1")
checks = with_checks


class FakeBench:
    """Begins what it is asked to, unless told why not."""

    def __init__(self):
        self.begun, self.answers, self.why = [], [], None

    def view(self):
        return GaugeCheckView((CheckableGauge("arm", "Arm", "P-1", BUSY),), ("set",), None)

    def begin(self, asked, person, asker):
        if self.why:
            raise SaidTrouble(self.why)
        self.begun.append((asked.gauge, person.name, asker.role))

    def answer(self, number, typed):
        if number != 3:
            raise SaidTrouble(said("bench-asked-meanwhile"))
        self.answers.append(typed)


class OnFile:
    """Where the record is."""

    def __init__(self, folder):
        self.data = folder


@pytest.fixture
def bench():
    return FakeBench()


@pytest.fixture
def app(hub, inbox, checks, bench, monkeypatch):
    monkeypatch.setattr(pins.enrol, "__defaults__", (QUICK,))
    enrolled(checks, "Kit Marsh", "set-up")
    enrolled(checks, "Bo Harm", "sign")
    access = Access(checks, SystemClock())
    return create_app(hub, inbox, access=access, bench=bench, on_record=OnFile(checks))


@pytest.fixture
def post(app):
    client, token = paired(app)
    return lambda path, **body: client.post(
        f"/api/gauge-check/{path}", json=body, headers={HEADER: token}
    )


def test_who_may_set_up_begins_it_and_a_screen_answers(app, post, bench):
    assert post("begin", person="Kit Marsh", pin=PIN, check=CHECK).status_code == 200
    assert bench.begun == [("arm", "Kit Marsh", "work")]
    assert post("answer", number=3, typed="b").status_code == 200
    assert bench.answers == ["b"]
    late = post("answer", number=2, typed="")
    assert (late.status_code, late.json["reason"]) == (409, "Something else is asked by now.")


@pytest.mark.parametrize(
    ("changes", "status", "words"),
    [
        ({"person": "Bo Harm"}, 403, "Bo Harm may sign, not set up"),
        ({"pin": "1"}, 403, "That is not the PIN"),
        ({"check": CHECK | {"state": "new"}}, 400, ""),
        ({}, 422, "An audit on mill-1 has that gauge"),
    ],
)
def test_what_is_refused_begins_nothing(post, bench, changes, status, words):
    bench.why = BUSY
    answer = post("begin", **{"person": "Kit Marsh", "pin": PIN, "check": CHECK, **changes})
    assert (answer.status_code, words in answer.json["reason"]) == (status, True), answer.json
    assert bench.begun == []


def test_strangers_and_shops_without_a_bench_get_none(app, hub, inbox, checks):
    assert app.test_client().get("/gauge-check").status_code == 303
    assert app.test_client().get("/api/gauge-check").status_code == 403
    without = create_app(hub, inbox, access=Access(checks, SystemClock()))
    client, _ = paired(without)
    assert client.get("/gauge-check").status_code == 404
    practice = create_app(hub, inbox).test_client()
    assert practice.get("/gauge-check").status_code == 404


def test_the_page_names_what_cannot_be_checked_now(app):
    client, _ = paired(app)
    page = client.get("/gauge-check").text
    assert 'value="arm" disabled>Arm, P-1: An audit on mill-1 has that gauge' in page
    assert "stop it, lock it out" in page


@pytest.mark.parametrize(("row", "status"), [("4", 200), ("2", 404), ("x", 404), ("9" * 30, 404)])
def test_a_certificate_is_there_by_its_row(app, row, status):
    client, _ = paired(app)
    answer = client.get(f"/api/gauge-check/practice/{row}/certificate.html")
    assert answer.status_code == status
    if status == 200:
        assert "As left, after it was set" in answer.text
        assert 'inline; filename="G-4.html"' in answer.headers["Content-Disposition"]
        assert client.get(f"/api/gauge-check/practice/{row}/certificate.csv").status_code == 404
