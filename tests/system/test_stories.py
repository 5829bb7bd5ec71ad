"""What a machinist lives through, over the wire and over HTTP."""

import pytest


@pytest.fixture
def shop(shop):
    """The nod pivot 150 mm behind the spindle, the arm 100 mm long."""
    shop.set("machines/practice-mill.toml", "sweep_radius", '"100 mm"')
    shop.set("machines/practice-mill.toml", "pivot_distance", '"150 mm"', "[nod]")
    return shop


def squared_but_for_nod(person):
    """D_nod +0.080, side level; then parked at the front, which read 1.200."""
    person.start()
    person.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    person.take("front", 1.200)


def test_the_base_is_read_clamped_and_the_drop_does_not_move_the_stop_at(person, client, daemon):
    """Stop at 1.200 - (100 + 150) x 0.080 / 200 = 1.100, whatever cracking the bolts does."""
    squared_but_for_nod(person)
    console = client.console()
    assert (console["step"], console["stop_at"]["value"]) == ("loosen", "1.100")
    person.done("loosened", 1.180)
    console = client.console()
    assert (console["step"], console["stop_at"]["value"]) == ("move", "1.100")
    # Where it stands now; the stop-at itself still counts from the clamped reading.
    assert console["stop_at"]["base"] == "1.180"
    (parked,) = daemon.events("Parked")
    assert parked.data["stop"]["base_face_mm"] == pytest.approx(1.200, abs=1e-9)
    live = client.until_live(lambda live: live.text == "1.180")
    assert live.to_go == "-0.080"
    (loosened,) = daemon.events("Loosened")
    assert loosened.data["drop_face_mm"] == pytest.approx(-0.020, abs=1e-9)


def test_a_sweep_the_wrong_way_round_is_asked_about_before_any_stop_at(person, client):
    """Walked as front, left, back, right: left and right carry each other's readings."""
    person.start(free_mm=-2.0)
    person.sweep(front=0.0, right=-0.060, back=0.0, left=0.060)
    person.take("right", 0.060)
    console = client.console()
    asked = "This spot read -0.060, now +0.060: went round the other way?"
    assert console["question"]["say"] == asked
    assert console["title"] == "Went round the other way?"
    assert console["stop_at"] is None
    refused = client.post("loosened")
    assert refused.status == 422
    assert client.live().to_go is None
    client.do("answer", {"key": "other-way"})
    console = client.console()
    assert console["question"] is None
    assert console["stop_at"]["value"] == "0.000"
    assert console["axes"][0]["value"] == "+0.120"


def test_nod_parked_at_the_back_is_sent_to_the_front(person, client):
    """At the back, 150 - 100 mm from the pivot, the gauge would see a fifth of the move."""
    person.start()
    person.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    refused = person.asked("back", 1.120)
    assert refused.status == 422
    assert refused.body["reason"] == "The gauge hardly moves here: park at front."
    assert client.console()["stop_at"] is None


def test_an_axis_inside_is_left_alone(person, client):
    person.start()
    person.sweep(front=1.002, right=1.060, back=1.000, left=0.942)
    said = []
    for step in ("park", "loosen", "move"):
        console = client.console()
        assert console["step"] == step
        assert console["notes"] == ["Leave the nod bolts alone."]
        said.append(f"{console['title']} {console['detail']}")
        if step == "park":
            person.take("right", 1.060)
        elif step == "loosen":
            assert console["title"] == "Crack the side bolts."
            person.done("loosened", 1.055)
    assert [words for words in said if "nod" in words.lower()] == []
    assert client.console()["stop_at"]["axis"] == "side"


def test_a_zero_after_parking_takes_the_stop_at_away(person, gauge, client, daemon):
    """Nobody says so: the number on the wire jumps, and the service notices by itself."""
    squared_but_for_nod(person)
    assert client.console()["stop_at"]["value"] == "1.100"
    gauge.jump_to(0.0)
    snapshot = client.until(lambda snapshot: snapshot["pages"]["console"]["message"])
    console = snapshot["pages"]["console"]
    assert console["message"]["say"] == "Zeroed: read this spot again."
    assert console["stop_at"] is None
    assert snapshot["pages"]["wall"]["stop_at"] is None
    assert client.live().to_go is None
    assert client.post("loosened").status == 422
    (zeroed,) = daemon.events("Zeroed")
    assert zeroed.actor == "service"
    assert zeroed.data["before_face_mm"] == pytest.approx(1.200, abs=1e-9)
    person.take("front", 0.0)
    console = client.console()
    assert (console["step"], console["message"]) == ("loosen", None)
    assert console["stop_at"]["value"] == "-0.100"
