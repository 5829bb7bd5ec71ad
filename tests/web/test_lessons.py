"""The lessons as pages and API have them; only where there is a practice mill."""

import pytest
from flask.testing import FlaskClient

from tests.web.conftest import FakeHub, FakePractice
from tests.web.test_pages import MACHINE
from web.hands import arranged

OF = f"/api/machines/{MACHINE}/practice"


def test_a_lesson_is_begun_with_its_learner_and_an_error(
    client: FlaskClient, practice: FakePractice
) -> None:
    known = {"lesson": "known", "learner": "B", "side_mm": 1, "nod_mm": -0.1}
    for body in ({"lesson": "chip"}, known, {"lesson": ""}):
        assert client.post(f"{OF}/lessons", json=body).json["runs"][0]["score"] == 92
    assert practice.began == [
        ("chip", "", (0.0, 0.0)),
        ("known", "B", (1.0, -0.1)),
        ("", "", (0.0, 0.0)),
    ]
    refused = client.post(f"{OF}/lessons", json={"lesson": "dance"})
    assert (refused.status_code, "found dance" in refused.json["reason"]) == (422, True)


def test_the_truth_is_asked_for_by_the_number_of_a_run(
    client: FlaskClient, practice: FakePractice
) -> None:
    for body in ({"nth": 2}, {}):
        assert client.post(f"{OF}/truth", json=body).status_code == 200
    assert practice.showed == [2, 0]


def test_the_page_names_each_lost_point_and_the_class_covers_it(client: FlaskClient) -> None:
    page = client.get(f"/machines/{MACHINE}/lessons").text
    lost = "Read for the back, while the gauge stood at the left"
    assert all(text in page for text in (lost, "8 points", "row 12", "Workmanship 92 of 100"))
    whole = client.get(f"/machines/{MACHINE}/class").text
    assert "A. Learner" in whole and "Run 1" in whole
    assert lost not in whole


def test_a_real_machine_has_no_lessons(client: FlaskClient, hub: FakeHub) -> None:
    hub.names = (*hub.names, type(hub.names[0])("big-mill", "Big mill"))
    for path in ("machines/big-mill/lessons", "machines/big-mill/class"):
        assert client.get(f"/{path}").status_code == 404
    api = "/api/machines/big-mill/practice"
    assert client.get(f"{api}/lessons").status_code == 404
    assert client.post(f"{api}/lessons", json={"lesson": "chip"}).status_code == 404
    assert client.post(f"{api}/truth", json={}).status_code == 404


@pytest.mark.parametrize(
    ("do", "now"),
    [
        ({"kind": "turn", "axis": "nod"}, ["turn"]),
        ({"kind": "turn", "axis": "side"}, []),
        ({"kind": "push"}, ["push"]),
        ({"kind": "swing", "position": "left"}, []),
        ({"kind": "bolt", "axis": "nod", "bolt": "nod bolt 2"}, ["bolt 2"]),
        ({"kind": "nothing"}, []),
        ({}, []),
    ],
)
def test_what_the_console_wants_done_stands_first(
    practice: FakePractice, do: dict[str, str], now: list[str]
) -> None:
    bolts = [
        {"verb": "bolt", "say": "", "args": {"axis": "nod", "bolt": each}} for each in ("1", "2")
    ]
    state = {**practice.state(MACHINE)}
    state["operations"] = [*state["operations"], *bolts]
    shown = [each for each in arranged(state, do)["operations"] if each["now"]]
    assert [f"{each['verb']} {each['args'].get('bolt', '')}".strip() for each in shown] == now
