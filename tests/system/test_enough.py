"""Good enough for a job, over HTTP: asked of a whole service before and after a signed sweep."""

import threading

import pytest

from daq.virtual import Machinist
from daq.virtual.hands import AtPracticeMill
from tests.system.daemon import headsweep

ROUTE = "/api/machines/practice-mill/enough"
BORE = {"bore": {"depth": "40 mm", "zone": "0.05 mm"}}


def test_a_callout_is_answered_by_the_signed_sweep_and_kept_on_a_press(mill, daemon, shop):
    client = daemon.client
    refused = client.ask("POST", ROUTE, BORE)
    assert (refused.status, refused.body["code"]) == (422, "refused")
    assert "has not been swept" in refused.body["reason"]
    client.do("open", {"reason": "scheduled"})
    at = AtPracticeMill(client.snapshot, client.press, client.live, mill, threading.Event())
    Machinist(at).work("signed")
    truth = mill.truth()

    found = client.ask("POST", ROUTE, BORE)
    assert found.status == 200 and found.body["word"] == "in"
    assert found.body["say"].startswith("Good enough: ")
    true_mm = 40.0 * (truth["side"] ** 2 + truth["nod"] ** 2) ** 0.5
    assert found.body["does_mm"] == pytest.approx(true_mm, abs=found.body["doubt_mm"] + 0.001)
    inch = {"bore": {"depth": f"{40 / 25.4} in", "zone": f"{0.05 / 25.4} in"}}
    assert client.ask("POST", ROUTE, inch).body["does_mm"] == pytest.approx(
        found.body["does_mm"], rel=1e-9
    )
    assert daemon.events("AnswerKept") == []

    client.do("keep-answer", {"callout": BORE, "audit": found.body["audit"]})
    (kept,) = daemon.events("AnswerKept")
    assert kept.data["answer"]["does_mm"] == found.body["does_mm"]
    assert kept.data["answer"]["callout"]["bore"] == {"depth": 40.0, "zone": 0.05}
    assert " AnswerKept " in headsweep("ledger", "show", "--data", shop.data).stdout


@pytest.mark.parametrize(
    ("body", "words"),
    [
        ({"bore": {"depth": "forty", "zone": "0.05 mm"}}, 'bore.depth: found "forty"; allowed: '),
        (
            {"bore": {"depth": "40 mm", "zone": "-1 mm"}},
            "bore.zone: found -1.0 mm; allowed: at least",
        ),
        ({"wall": {"height": "40 mm", "zone": "0.05 mm", "faces": "up"}}, 'faces: found "up"'),
        ({"bore": {"depth": 40, "zone": "0.05 mm"}}, "bore.depth: found 40"),
        ({"hole": {}}, "unknown key 'hole'"),
        ({}, "found none; allowed: one of bore, wall, face"),
    ],
)
def test_what_cannot_be_is_named(daemon, body, words):
    found = daemon.client.ask("POST", ROUTE, body)
    assert found.status == 400 and words in "\n".join(found.body["problems"])
