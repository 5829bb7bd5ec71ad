"""What a gauge itself can do wrong: each said in its own words, recorded, and survived."""

from itertools import cycle

import pytest

from tests.cards import READY
from tests.faults.turned import FREE_MM, Turned, ready, turning
from tests.patience import until
from tests.progress import besides
from tests.system.client import codes, faults
from tests.system.daemon import Daemon, headsweep
from tests.system.person import Person
from tests.words import en

STANDS = 8
"""Frames in which a number stands still, as a preset is told by: more than it takes."""
AT_THE_END_MM = 12.7 + FREE_MM
PRACTICE = "gauges/practice.toml"


@pytest.fixture
def gauge(shop):
    with Turned(shop.tty) as made:
        yield made


def noted(daemon, code):
    """Wait until the service says what it has noticed of the gauge; return its event's data."""

    def events():
        return [e for e in daemon.events("GaugeNoted") if e.data["said"]["code"] == code]

    daemon.client.until(lambda _: events())
    (event,) = events()
    # The screen asked for before the event was there may still show what was before it.
    said = daemon.client.until(lambda snapshot: snapshot["seq"] >= event.seq)
    assert said["pages"]["console"]["message"] == {"code": code, "say": en(event.data["said"])}
    assert event.evidence
    return event.data


def sound(daemon):
    done = headsweep("ledger", "recheck", "--data", daemon.shop.data)
    assert (done.returncode, besides(done.stderr)) == (0, "")


def test_a_wrong_speed_is_reported_and_makes_no_sample(shop, gauge):
    shop.set(PRACTICE, "baud", "4800", "[line]")
    daemon = Daemon(shop).start()
    try:
        (fault,) = faults(daemon.client.until(codes))
        assert fault["code"] == "wrong-settings"
        assert "none good: wrong speed, bits or parity?" in fault["say"]
        live = daemon.client.live()
        assert (live.text, live.run, live.fresh) == ("", "", False)
    finally:
        daemon.close()


def test_the_unit_key_in_mid_sweep_changes_the_unit_of_every_number(person, gauge, client, daemon):
    ready(person)
    person.take("front", 1.270)
    person.take("right", 1.270)
    gauge.gauge.press_unit()
    data = noted(daemon, "unit-changed")
    assert en(data["said"]) == "The unit key was pressed: everything is in inches now."
    assert (data["unit"], data["next"]) == ("in", None)
    wall = client.snapshot()["pages"]["wall"]
    assert wall["unit"] == "in"
    assert {each["position"]: each["value"] for each in wall["circle"]} == {
        "front": "0.05000", "right": "0.05000", "back": "", "left": ""
    }  # fmt: skip
    assert client.live().unit == "in"
    for position in ("back", "left", "front"):
        person.take(position, 1.270)
    (swept,) = daemon.events("SweepDone")
    assert swept.data["usable"]
    assert [each["word"] for each in swept.data["results"].values()] == ["in", "in"]
    sound(daemon)


def test_a_gauge_zeroed_as_the_adjuster_is_turned_takes_the_stop_at_away(
    person, gauge, client, daemon
):
    turning(person)
    gauge.gauge.press_zero()

    def shown(*parts):
        found = client.until(lambda s: any(s["pages"]["console"][part] for part in parts))
        return found["pages"]["console"]

    told, step = "Zeroed: read this spot again.", "park"
    if shown("message", "question")["question"]:
        # The samples came late, as of a number that was turned to zero.
        client.do("answer", {"key": "zeroed"})
        told, step = "Zeroed with the bolts loose: check this axis again.", "check"
    console = shown("message")
    assert console["message"]["say"] == told
    assert (console["step"], console["stop_at"]) == (step, None)
    *_, zeroed = daemon.events("Zeroed")
    assert zeroed.data["before_face_mm"] == pytest.approx(1.180, abs=5e-4)
    assert daemon.events("GaugeNoted") == []
    sound(daemon)


def test_the_end_of_the_travel_is_no_reading(person, gauge, client, daemon):
    ready(person)
    refused = person.asked("front", AT_THE_END_MM + 0.5)
    assert refused.status == 422
    assert "at the end of its travel at front: this is no reading" in refused.body["reason"]
    assert daemon.events("ReadingTaken") == []
    person.take("front", 1.2)


def test_a_contact_off_the_surface_is_no_reading_and_a_preset_on_it_is_said_and_drops_none(
    person, gauge, client, daemon
):
    ready(person)
    refused = person.asked("front", FREE_MM)
    assert refused.status == 422
    assert "Off contact at front. The contact is not on the surface" in refused.body["reason"]
    assert daemon.events("ReadingTaken") == []
    person.take("front", 1.2)
    presets = cycle((3.0, 5.0))

    def jumped():
        """Again, should a frame have come so late that a hand could have been as quick."""
        gauge.stand(STANDS)
        gauge.gauge.press_preset(next(presets))
        gauge.stand(2 * STANDS)
        return daemon.events("GaugeNoted")

    until(jumped)
    said = en(noted(daemon, "jumped-at-rest")["said"])
    assert said.startswith("The number became another one at once, quicker than a hand turns")
    assert client.console()["step"] == "as-found"
    assert len(daemon.events("ReadingTaken")) == 1
    sound(daemon)


def test_what_happens_as_the_adjuster_is_turned_is_said_each_in_its_words(
    person, gauge, client, daemon
):
    """The contact leaves the surface, then comes to its end, then the gauge is preset."""
    turning(person)
    gauge.move_to(FREE_MM)
    said = en(noted(daemon, "contact-lifted")["said"])
    assert said == "The contact is off the surface: bring the gauge down."
    refused = client.post("stopped")
    assert refused.status == 422
    assert "The contact is not on the surface" in refused.body["reason"]
    gauge.move_to(AT_THE_END_MM + 0.5)
    said = en(noted(daemon, "travel-ended")["said"])
    assert said == "The gauge is at the end of its travel: stop, and set it anew."
    assert client.console()["step"] == "move"
    gauge.move_to(1.150)
    gauge.stand(STANDS)
    gauge.gauge.press_preset(5.000)
    said = en(noted(daemon, "number-jumped")["said"])
    assert said == "The number jumped: preset or bumped? Read again."
    console = client.console()
    assert (console["step"], console["stop_at"]) == ("check", None)
    assert len(daemon.events("GaugeNoted")) == 3
    sound(daemon)


def test_a_stuck_gauge_settles_perfectly_and_is_found_by_the_push(person, gauge, client, daemon):
    gauge.move_to(FREE_MM)
    client.do("open", {"reason": "scheduled"})
    client.do("readied", READY)
    client.do("warmed", {"warm": True})
    client.do("prepared", {"serial_number": "P-0417"})
    gauge.gauge.faults.stuck = True
    client.do("take")
    gauge.move_to(FREE_MM + 0.8)
    gauge.move_to(FREE_MM)
    client.do("pushed")
    console = client.console()
    assert console["step"] == "touch-push"
    assert "The number did not move." in console["message"]["say"]
    assert "the gauge is stuck" in console["message"]["say"]
    (pushed,) = daemon.events("Pushed")
    assert not pushed.data["ok"]
    assert pushed.data["excursion_face_mm"] == pytest.approx(0.0, abs=1e-9)
    gauge.gauge.faults.stuck = False
    Person(client, gauge).pushed(FREE_MM)
    assert client.console()["step"] == "as-found"


def test_an_overdue_gauge_is_told_and_measures_on(shop, gauge):
    shop.set(PRACTICE, "calibration_due", "2020-02-29")
    daemon = Daemon(shop).start()
    try:
        person = Person(daemon.client, gauge)
        ready(person)
        person.take("front", 1.2)
        (said,) = faults(daemon.client.snapshot())
        assert (said["code"], said["kind"]) == ("overdue", "warning")
        assert "its calibration was good until 2020-02-29" in said["say"]
        assert daemon.client.live().fresh
    finally:
        daemon.close()
