"""What verdicts were worth: the page for people, the routes for programs."""

import re
from pathlib import Path

import pytest

from daq.audit.state import MachineState, Shop
from daq.audit.stated import Count, Reliability
from daq.metrology.reliability import FEWEST
from daq.service.trends import Trends
from tests.service.conftest import HandClock
from web.app import create_app

MACHINE = "practice-mill"
NONE = Count()
OF = {
    MACHINE: Reliability((NONE, NONE, Count(12, 11, 9), NONE, Count(44, 44, 43)), {"crash": 2}),
    "old-mill": Reliability((NONE, NONE, Count(10, 9, 9), NONE, NONE), {"crash": 1}),
}


@pytest.fixture
def client(hub, inbox):
    shop = Shop({key: MachineState(key, reliability=each) for key, each in OF.items()})
    trends = Trends({}, shop, HandClock(), Path("/nowhere"))
    return create_app(hub, inbox, trends=trends).test_client()


def text(page):
    return re.sub(r"\s+", " ", re.sub(r"<[^>]*>", " ", page.text))


def test_a_machines_stands_in_its_trend_and_the_shops_by_itself(client):
    of_machine = client.get(f"/api/machines/{MACHINE}/trend").json["reliability"]
    of_shop = client.get("/api/reliability").json
    assert (of_machine["bands"][2]["audits"], of_shop["bands"][2]["audits"]) == (12, 22)
    assert (of_machine["bands"][2]["share"], of_shop["bands"][2]["agreed"]) == (None, 20)
    assert of_shop["left_out"] == [
        {"why": "crash", "audits": 3, "say": "Left out: 3 audits, after a crash."}
    ]
    assert of_machine["fewest"] == FEWEST


def test_both_are_documented_as_one_thing(client):
    document = client.get("/api/openapi.json").json
    answers = document["paths"]["/api/reliability"]["get"]["responses"]
    schema = {"$ref": "#/components/schemas/ReliabilityView"}
    assert answers["200"]["content"]["application/json"]["schema"] == schema
    schemas = document["components"]["schemas"]
    assert schemas["TrendView"]["properties"]["reliability"] == schema
    band = schemas["BandView"]["properties"]
    assert set(band) == set(client.get("/api/reliability").json["bands"][0])


def test_the_page_says_of_the_machine_and_of_the_shop_what_may_be_said(client):
    told = text(client.get(f"/machines/{MACHINE}/trend"))
    assert "of 20 audits stated 90 to 95 % sure, 12 have been held" in told
    assert "Of 22 audits stated 90 to 95 % sure, the next as-found agreed with 91 %" in told
    assert "90 to 95 % 12 Too few yet: 12 of 20" in told
    assert "99 % and over 44 100 % (92 to 100 %) 98 %" in told
    assert "Left out: 2 audits, after a crash." in told
    assert "Nod, mm over 300 mm: as found and as left As found: Limits come with 8 values" in told


def test_the_first_page_leads_there_where_there_are_trends(client, hub, inbox):
    assert f"/machines/{MACHINE}/trend" in client.get("/").text
    assert "/trend" not in create_app(hub, inbox).test_client().get("/").text


def test_where_there_are_none_or_no_such_machine_it_says_so(client, hub, inbox):
    assert client.get("/machines/lathe/trend").status_code == 404
    without = create_app(hub, inbox).test_client()
    assert without.get(f"/machines/{MACHINE}/trend").status_code == 404
    assert without.get("/api/reliability").status_code == 404
