"""The trend route: what is handed out, what is documented, and where there is none."""

import re

import pytest

from daq.audit.reliable import of_machine
from daq.audit.stated import Reliability
from daq.service.trends import NoSuchPage, Trends
from daq.words import Both, SaidTrouble, said
from daq.words.trend import (
    AuditDue,
    AxisTrend,
    CheckDue,
    LeftOut,
    PivotPoint,
    Smoothed,
    TrendLimits,
    TrendPoint,
    TrendSeries,
    TrendView,
)
from tests.words import en
from web.app import create_app

MACHINE = "practice-mill"
ROUTE = f"/api/machines/{MACHINE}/trend"

POINT = TrendPoint(
    "id-1", "A-1", 41, "2026-05-01", "scheduled", 0.006, None, 0.025, "in", True, False,
    Smoothed(0.001, -0.003, 0.003, False),
)  # fmt: skip
SERIES = TrendSeries(
    (POINT,),
    TrendLimits(0.001, -0.008, 0.01, 0.003, -0.004, 0.006, 0.2),
    (LeftOut("id-0", "A-0", 7, "2026-04-01", "Found off the gauge's scale."),),
    "Every value lies inside the limits.",
)
PIVOTS = (
    PivotPoint("id-1", "A-1", "2026-05-01", 151.2, 12.5, 0),
    PivotPoint(None, None, None, 148.9, 4.0, 1),
)
NOTHING = TrendSeries((), None, (), "Limits come with 8 values; there are 0.")
VIEW = TrendView(
    300.0,
    "mm",
    1,
    Both(AxisTrend(SERIES, NOTHING, NOTHING, PIVOTS), AxisTrend(NOTHING, NOTHING, NOTHING)),
    AuditDue("2026-05-01", 30, "2026-05-31", -1, True, "Overdue by 1 day."),
    (
        CheckDue(
            "runout",
            "Spindle run-out",
            "id-2",
            "A-2",
            "out",
            AuditDue("2026-04-30", 30, "2026-05-30", -2, True, "Overdue by 2 days."),
        ),
        CheckDue(
            "travel",
            "Table along its travel",
            None,
            None,
            None,
            AuditDue(None, 30, None, None, True, "One is due."),
        ),
    ),
    of_machine(Reliability(), "mm"),
    41,
)


class FakeTrends(Trends):
    def __init__(self):
        self.asked = []
        self.fails = None

    def of(self, machine, most, before=None):
        self.asked.append((machine, most, before))
        if self.fails is not None:
            raise self.fails
        return VIEW

    def due(self, machine):
        return (CheckDue("", "Squaring the head", "id-1", "A-1", "in", VIEW.due), *VIEW.checks)


@pytest.fixture
def trends():
    return FakeTrends()


@pytest.fixture
def client(hub, inbox, trends):
    return create_app(hub, inbox, trends=trends).test_client()


def test_the_trend_of_the_machine_asked_for_is_given_whole(client, trends):
    answer = client.get(ROUTE)
    assert (answer.status_code, trends.asked) == (200, [(MACHINE, 100, None)])
    got = answer.json
    assert (got["over_mm"], got["audits"]) == (300.0, 1)
    found = got["axes"]["side"]["as_found"]
    assert found["points"][0]["value_mm"] == 0.006
    assert found["points"][0]["allowed_low_mm"] is None
    assert found["points"][0]["smoothed"]["high_mm"] == 0.003
    assert found["limits"]["high_mm"] == 0.01
    assert found["left_out"][0]["short"] == "A-0"
    assert got["axes"]["nod"]["tightening"]["limits"] is None
    began, now = got["axes"]["side"]["pivots"]
    assert (began["audit"], began["value_mm"], began["audits"]) == ("id-1", 151.2, 0)
    assert (now["audit"], now["doubt_mm"]) == (None, 4.0)
    assert (got["due"]["day"], got["due"]["overdue"]) == ("2026-05-31", True)


def test_each_other_check_says_when_it_is_due(client):
    runout, travel = client.get(ROUTE).json["checks"]
    assert (runout["check"], runout["word"], runout["due"]["days_left"]) == ("runout", "out", -2)
    assert (travel["audit"], travel["due"]["overdue"]) == (None, True)


def test_the_first_page_says_of_every_check_when_it_was_signed_and_is_due(client):
    text = re.sub(r"<[^>]*>|\s+", " ", client.get("/").text)
    told = re.sub(r" +", " ", text)
    for line in (
        "Squaring the head Signed last on 2026-05-01 (audit A-1), inside. Overdue by 1 day.",
        "Spindle run-out Signed last on 2026-04-30 (audit A-2), outside. Overdue by 2 days.",
        "Table along its travel One is due.",
    ):
        assert line in told


def test_older_ones_are_asked_for_by_the_row_that_more_gave(client, trends):
    assert client.get(f"{ROUTE}?limit=7&before={client.get(ROUTE).json['more']}").status_code == 200
    assert trends.asked[-1] == (MACHINE, 7, 41)


@pytest.mark.parametrize(
    ("asked", "problem"),
    [
        ("limit=0", "query: limit: found 0; allowed: at least 1 and at most 200"),
        ("limit=201", "query: limit: found 201; allowed: at least 1 and at most 200"),
        ("limit=ten", 'query: limit: found "ten"; allowed: '),
        ("limit=", 'query: limit: found ""; allowed: '),
        ("before=0", "query: before: found 0; allowed: at least 1"),
        ("before=99999999999999999999", "query: before: found 99999999999999999999; allowed: "),
        ("befor=3", "query: unknown key 'befor'"),
    ],
)
def test_what_cannot_be_asked_for_is_told(client, trends, asked, problem):
    answer = client.get(f"{ROUTE}?{asked}")
    assert answer.status_code == 400
    (found,) = answer.json["problems"]
    assert found.startswith(problem)
    assert trends.asked == []


@pytest.mark.parametrize(
    ("error", "status"),
    [
        (NoSuchPage(said("no-such-page", before=3)), 400),
        (SaidTrouble(said("file-is-damaged")), 503),
    ],
)
def test_what_cannot_be_answered_is_told(client, trends, error, status):
    trends.fails = error
    answer = client.get(ROUTE)
    assert (answer.status_code, answer.json["reason"]) == (status, en(error))


def test_a_machine_that_is_not_there_has_none(client, trends):
    answer = client.get("/api/machines/lathe/trend")
    assert answer.status_code == 404
    assert "lathe" in answer.json["reason"]
    assert trends.asked == []


def test_where_nothing_keeps_trends_there_are_none(hub, inbox):
    answer = create_app(hub, inbox).test_client().get(ROUTE)
    assert (answer.status_code, answer.json["reason"]) == (404, "There are no trends to show here.")


def test_it_can_be_asked_for_and_not_written(client):
    assert client.post(ROUTE, json={}).status_code == 405


def test_it_is_documented_down_to_its_points(client):
    document = client.get("/api/openapi.json").json
    answers = document["paths"]["/api/machines/{machine}/trend"]["get"]["responses"]
    schema = answers["200"]["content"]["application/json"]["schema"]
    assert schema == {"$ref": "#/components/schemas/TrendView"}
    assert {"400", "404", "503"} <= answers.keys()
    operation = document["paths"]["/api/machines/{machine}/trend"]["get"]
    asked = {each["name"]: each for each in operation["parameters"] if each["in"] == "query"}
    assert asked["limit"]["schema"] == {"type": "integer"}
    assert asked.keys() == {"limit", "before"}
    point = document["components"]["schemas"]["TrendPoint"]["properties"]
    assert point["allowed_low_mm"] == {"anyOf": [{"type": "number"}, {"type": "null"}]}
    pivot = document["components"]["schemas"]["PivotPoint"]["properties"]
    assert pivot["audit"] == {"anyOf": [{"type": "string"}, {"type": "null"}]}
    assert set(point) == set(client.get(ROUTE).json["axes"]["side"]["as_found"]["points"][0])
