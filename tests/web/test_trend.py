"""The trend route: what is handed out, what is documented, and where there is none."""

import pytest

from daq.words.trend import (
    AuditDue,
    AxisTrend,
    LeftOut,
    Smoothed,
    TrendLimits,
    TrendPoint,
    TrendSeries,
    TrendView,
)
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
NOTHING = TrendSeries((), None, (), "Limits come with 8 values; there are 0.")
VIEW = TrendView(
    300.0,
    1,
    AxisTrend(SERIES, NOTHING, NOTHING),
    AxisTrend(NOTHING, NOTHING, NOTHING),
    AuditDue("2026-05-01", 30, "2026-05-31", -1, True, "Overdue by 1 day."),
)


class FakeTrends:
    def __init__(self):
        self.asked = []

    def of(self, machine):
        self.asked.append(machine)
        return VIEW


@pytest.fixture
def trends():
    return FakeTrends()


@pytest.fixture
def client(hub, inbox, trends):
    return create_app(hub, inbox, trends=trends).test_client()


def test_the_trend_of_the_machine_asked_for_is_given_whole(client, trends):
    answer = client.get(ROUTE)
    assert (answer.status_code, trends.asked) == (200, [MACHINE])
    got = answer.json
    assert (got["over_mm"], got["audits"]) == (300.0, 1)
    found = got["side"]["as_found"]
    assert found["points"][0]["value_mm"] == 0.006
    assert found["points"][0]["allowed_low_mm"] is None
    assert found["points"][0]["smoothed"]["high_mm"] == 0.003
    assert found["limits"]["high_mm"] == 0.01
    assert found["left_out"][0]["short"] == "A-0"
    assert got["nod"]["tightening"]["limits"] is None
    assert (got["due"]["day"], got["due"]["overdue"]) == ("2026-05-31", True)


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
    assert "404" in answers
    point = document["components"]["schemas"]["TrendPoint"]["properties"]
    assert point["allowed_low_mm"] == {"anyOf": [{"type": "number"}, {"type": "null"}]}
    assert set(point) == set(client.get(ROUTE).json["side"]["as_found"]["points"][0])
