"""Whole checks that are none of the head, on a virtual mill over HTTP, by what the console shows.

What is true is worked out here from what the mill was built as: vectors as complex numbers, and
numpy's straight line.
"""

import cmath
import math
import threading

import numpy as np
import pytest

from daq.audit.recompute import differences
from daq.ledger import LedgerView
from daq.virtual import Machinist
from daq.virtual.hands import AtPracticeMill
from daq.virtual.spec import BarSpec, TravelSpec
from tests.system.daemon import headsweep
from tests.system.person import refused

OFFERED = {
    "runout": "Check: Spindle run-out",
    "travel": "Check: Table along its travel",
    "vise": "Check: Vise jaw along the travel",
}
UNSEEN_MM = 0.002
"""What a reading of this gauge may be off by: its last digit, the flicker, how it lands."""
PLACES = np.array([0.0, 100.0, 200.0, 300.0])


def off(below_mm):
    """Where the bar's axis stands off the axis of rotation, as a complex number."""
    bar = BarSpec()
    at = [(bar.off_mm, bar.off_deg), (bar.own_mm, bar.own_deg), (bar.lean * below_mm, bar.lean_deg)]
    return sum(cmath.rect(mm, math.radians(deg)) for mm, deg in at)


def true_runout():
    for below_mm in (10.0, 160.0):
        e = off(below_mm)
        quarters = [(e * cmath.rect(1.0, -k * math.pi / 2.0)).real for k in range(4)]
        yield max(max(quarters) - min(quarters), 2.0 * abs(e))
        yield abs(e)
    yield abs(off(160.0) - off(10.0))


def true_travel():
    heights = np.array([TravelSpec().height_mm(place) for place in PLACES])
    line = np.polyfit(PLACES, heights, 1)
    yield line[0] * 300.0
    yield np.ptp(heights - np.polyval(line, PLACES))


TRUE = {
    "runout": lambda mill: tuple(true_runout()),
    "travel": lambda mill: tuple(true_travel()),
    "vise": lambda mill: (abs(mill.jaw_rise()) * 150.0,),
}
"""What is true in the end; a jaw stands as it was tapped."""


def test_a_morning_after_a_signed_sweep_and_one_after_a_knock(mill, daemon, shop):
    client = daemon.client
    at = AtPracticeMill(client.snapshot, client.press, client.live, mill, threading.Event())
    wish = {"reason": "scheduled", "check": "morning"}
    assert refused(client, "open", wish).startswith("The head has not been swept")
    client.do("open", {"reason": "scheduled"})
    Machinist(at).work("signed")
    client.do("open", wish)
    Machinist(at).work("signed")
    assert client.console()["title"].startswith("Morning check: nothing moved.")
    mill.reset()  # thrown out of square
    client.do("open", wish)
    Machinist(at).work("signed")
    verdicts = [each.data["verdict"] for each in daemon.events("Signed")]
    assert verdicts == ["conforms", "nothing-moved", "look-closer"]
    assert "look closer" in refused(client, "open", wish)
    with LedgerView.open(shop.data) as view:
        assert list(differences(view.events(), view.chunk)) == []


@pytest.mark.parametrize("check", OFFERED)
def test_a_whole_check_is_opened_read_and_signed_by_what_the_console_shows(
    mill, daemon, shop, check
):
    client = daemon.client
    opens = [a for a in client.console()["actions"] if a["kind"] == "open"]
    (wanted,) = [a for a in opens if a["say"] == OFFERED[check]]
    assert {a["say"] for a in opens} >= set(OFFERED.values())
    client.do("open", wanted["payload"])
    at = AtPracticeMill(client.snapshot, client.press, client.live, mill, threading.Event())
    Machinist(at).work("signed")

    (signed,) = daemon.events("Signed")
    done = signed.data["round"]
    for found, true in zip(done["results"], TRUE[check](mill), strict=True):
        assert found["value_mm"] == pytest.approx(true, abs=2.0 * UNSEEN_MM), found["name"]
        assert abs(found["value_mm"] - true) <= found["doubt_mm"], found["name"]
    assert (signed.data["verdict"], done["word"]) == ("conforms", "in")
    assert OFFERED[check].removeprefix("Check: ") in client.console()["title"]

    trend = client.ask("GET", "/api/machines/practice-mill/trend").body
    told = {each["check"]: each for each in trend["checks"]}
    assert (told[check]["word"], told[check]["due"]["overdue"]) == ("in", False)
    never = {"runout", "travel"} - {check}
    assert all(told[other]["due"]["overdue"] for other in never) and trend["audits"] == 0
    taps = daemon.events("Tapped")
    assert bool(taps) == (check == "vise") and all(tap.data["done"] for tap in taps)

    with LedgerView.open(shop.data) as view:
        assert list(differences(view.events(), view.chunk)) == []
    shown = headsweep("ledger", "show", "--data", shop.data)
    assert " Measured " in shown.stdout and " Signed " in shown.stdout
