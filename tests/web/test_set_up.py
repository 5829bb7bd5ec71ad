"""Setting up over HTTP: who may, what is refused and how, and that strangers change nothing."""

import os

import pytest

from daq.service.clock import SystemClock
from daq.service.files import load, what_is_good
from daq.service.read_anew import ReadAnew
from daq.service.rights import pins
from daq.service.rights.access import Access
from tests.entry import PIN, QUICK, enrolled, paired
from tests.web.conftest import shop_set_up
from web.app import create_app
from web.rights import HEADER

ANN, BO = "Anna Kelln", "Bo Harm"
GAUGE = {"port": "/dev/serial/by-id/x", "example": "example-bcd", "name": "Bench", "number": "A 1"}
GAUGE |= {"resolution": "0.001 mm", "travel": "12.7 mm", "max_error": "0.004 mm"}
GAUGE["due"] = "2028-03-31"
LEARN = {"port": "/dev/serial/by-id/none", "sends": "itself", "request": ""}
MACHINE = {"name": "Mill 1", "gauge": "bench", "unit": "in", "radius": "4"}


@pytest.fixture(autouse=True)
def quick(monkeypatch):
    """A PIN is worked out in no time."""
    monkeypatch.setattr(pins.enrol, "__defaults__", (QUICK,))


@pytest.fixture
def access(tmp_path):
    return Access(tmp_path, SystemClock())


@pytest.fixture
def begun():
    return []


@pytest.fixture
def app(hub, inbox, access, tmp_path, begun):
    there = shop_set_up(tmp_path / "config")
    there.anew.when_asked = lambda: begun.append(True)
    return create_app(hub, inbox, access=access, set_up=there)


class Phone:
    def __init__(self, app, name="Phone"):
        self.client, self.token = paired(app, name)
        self.seen = self.client.get("/api/set-up").json["seen"]
        self.who = {"person": ANN, "pin": PIN}

    def post(self, path, **body):
        sent = {**self.who, **body}
        answer = self.client.post(f"/api/set-up/{path}", json=sent, headers={HEADER: self.token})
        self.seen = answer.json.get("seen", self.seen)
        return answer

    def save(self, what, value):
        return self.post(what, seen=self.seen, **{what: value})


@pytest.fixture
def phone(app):
    return Phone(app)


@pytest.fixture
def config(tmp_path):
    return tmp_path / "config"


def whole(phone):
    answers = [phone.post("who", shop="Hill works")]
    answers += [phone.save("gauge", GAUGE), phone.save("machine", MACHINE)]
    assert [each.status_code for each in answers] == [200] * 3, [each.json for each in answers]


def files(config):
    return {path: path.read_bytes() for path in config.rglob("*") if path.is_file()}


def test_an_empty_folder_becomes_a_shop(phone, config, begun):
    view = phone.client.get("/api/set-up").json
    assert (view["first"], view["shop"], view["machines"]) == (True, False, [])
    whole(phone)
    shop = load(config)
    assert (shop.shop.name, list(shop.machines), list(shop.gauges)) == (
        "Hill works",
        ["mill-1"],
        ["bench"],
    )
    assert phone.post("anew").status_code == 200 and begun == [True]
    view = phone.client.get("/api/set-up").json
    assert (view["first"], view["machines"][0]["tolerance"]) == (False, "general")


def test_the_first_person_is_made_once_and_by_nobody_after_that(phone, access):
    assert phone.post("who").status_code == 200
    (ann,) = access.pins.people()
    assert (ann.name, ann.role) == (ANN, "set-up")
    phone.who = {"person": BO, "pin": "1111"}
    assert phone.post("who").status_code == 403
    phone.who = {"person": ANN, "pin": "1111"}
    assert phone.post("who").status_code == 403
    assert access.pins.people() == (ann,)


def test_who_has_a_pin_already_is_not_taken_over_as_the_first(phone, access, tmp_path):
    enrolled(tmp_path, ANN, "sign")
    before = access.pins.people()
    phone.who = {"person": ANN, "pin": "1111"}
    assert phone.post("who").status_code == 403
    assert access.pins.people() == before
    phone.who = {"person": f" {ANN.upper()} ", "pin": PIN}
    assert phone.post("who").status_code == 200
    (ann,) = access.pins.people()
    assert (ann.id, ann.role) == (before[0].id, "set-up")


@pytest.mark.parametrize("pin", ["", "12", "abcd", "1" * 13])
def test_a_first_pin_that_is_none_is_refused(phone, access, pin):
    phone.who = {"person": ANN, "pin": pin}
    assert phone.post("who").status_code == 422
    assert access.pins.people() == ()


@pytest.mark.parametrize("role", ["sign", "wrong pin", "nobody"])
@pytest.mark.parametrize("path", ["gauge", "machine", "change", "anew", "learn/begin"])
def test_nothing_is_saved_or_begun_for_whom_it_must_not(phone, config, begun, tmp_path, path, role):
    whole(phone)
    before = files(config)
    if role == "sign":
        enrolled(tmp_path, BO, "sign")
        phone.who = {"person": BO, "pin": PIN}
    else:
        phone.who = {"person": ANN if role == "wrong pin" else "X", "pin": "9999"}
    change = {"what": "tolerance", "key": "mill-1", "value": "boring"}
    body = {"gauge": GAUGE, "machine": MACHINE, "change": change}.get(path)
    learn = {"learn": LEARN} if path == "learn/begin" else {}
    answer = phone.post(path, **learn) if body is None else phone.save(path, body)
    assert answer.status_code == 403
    assert files(config) == before and begun == []


def test_guessing_a_pin_locks_out(phone):
    phone.post("who")
    phone.who["pin"] = "9999"
    answers = [phone.save("gauge", GAUGE).status_code for _ in range(6)]
    assert answers == [403] * 5 + [429]


def test_a_form_that_is_older_than_the_files_is_refused(app, config):
    one, other = Phone(app), Phone(app, "Tablet")
    whole(one)
    before = files(config)
    answer = other.save("machine", MACHINE)
    assert answer.status_code == 409 and "changed meanwhile" in answer.json["reason"]
    assert files(config) == before


@pytest.mark.parametrize(
    ("what", "value", "said"),
    [
        ("machine", {**MACHINE, "radius": "far"}, "machines/mill-1.toml: sweep_radius: found 'far"),
        ("machine", {**MACHINE, "radius": ""}, "from the spindle's axis to the contact is missing"),
        ("machine", {**MACHINE, "gauge": "none"}, "machines/mill-1.toml: gauge: found 'none'"),
        ("machine", {**MACHINE, "name": "\u0000 \ud800"}, "A name is missing"),
        ("gauge", {**GAUGE, "travel": "long"}, "gauges/bench-2.toml: travel: found 'long'"),
        ("gauge", {**GAUGE, "example": "../../etc"}, "no example ../../etc here"),
        ("change", {"what": "port", "key": "../mill", "value": "x"}, "There is no file"),
        ("change", {"what": "port", "key": "none", "value": "x"}, "There is no file"),
        (
            "change",
            {"what": "tolerance", "key": "mill-1", "value": "some"},
            "machines/mill-1.toml: tolerance: found 'some'; allowed: roughing, general",
        ),
    ],
)
def test_what_cannot_be_is_refused_by_file_and_key_and_nothing_is_written(
    phone, config, what, value, said
):
    whole(phone)
    before = files(config)
    if what == "machine":
        (config / "machines" / "mill-1.toml").unlink()
        phone.seen = phone.client.get("/api/set-up").json["seen"]
        before = files(config)
    answer = phone.save(what, value)
    assert answer.status_code == 422
    told = " ".join([answer.json["reason"], *answer.json["problems"]])
    assert said in told.replace('"', "'")
    assert "/tmp" not in answer.text
    assert files(config) == before


def test_a_gauge_whose_papers_are_not_told_is_kept_and_used_by_nobody(phone, config):
    whole(phone)
    arm = GAUGE | {"name": "Arm", "port": "/dev/serial/by-id/y", "max_error": "", "due": None}
    answer = phone.save("gauge", arm)
    assert [each["key"] for each in answer.json["missing"]] == ["max_error", "calibration_due"]
    refused = phone.save("machine", MACHINE | {"name": "Mill 2", "gauge": "arm"})
    assert refused.status_code == 422 and "'arm'" in str(refused.json["problems"])
    assert list(what_is_good(config).machines) == ["mill-1"], "all else goes on"
    view = phone.client.get("/api/set-up").json
    assert [(g["key"], len(g["missing"])) for g in view["incomplete"]] == [("arm", 2)]
    assert [each["key"] for each in view["gauges"]] == ["bench"]
    for key, value, status in (
        ("calibration_due", "tomorrow", 422),
        ("travel", "1 mm", 422),
        ("max_error", "0.02 mm", 200),
        ("calibration_due", "2028-03-31", 200),
    ):
        change = {"what": key, "key": "arm", "value": value}
        assert phone.save("change", change).status_code == status
    assert phone.save("machine", MACHINE | {"name": "Mill 2", "gauge": "arm"}).status_code == 200
    assert load(config).gauges["arm"].max_error == 0.02


def test_a_tolerance_and_a_port_are_changed_and_nothing_else(phone, config):
    whole(phone)
    before = (config / "machines" / "mill-1.toml").read_text(encoding="utf-8")
    change = {"what": "tolerance", "key": "mill-1", "value": "boring"}
    assert phone.save("change", change).status_code == 200
    after = (config / "machines" / "mill-1.toml").read_text(encoding="utf-8")
    assert after == before.replace('tolerance = "general"', 'tolerance = "boring"')
    change = {"what": "port", "key": "bench", "value": "/dev/serial0"}
    assert phone.save("change", change).status_code == 200
    assert load(config).gauges["bench"].line.port == "/dev/serial0"


def test_a_folder_that_does_not_take_it_says_why(phone, monkeypatch):
    phone.post("who")

    def full(*_, **__):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    answer = phone.save("gauge", GAUGE)
    assert answer.status_code == 503 and "No space left on device" in answer.json["reason"]


NAMES = ("Example mill", "Ünïcode № 1", "…", "a" * 80)


def test_whatever_it_is_called_it_gets_a_file_that_is_used(phone, config):
    whole(phone)
    for n, name in enumerate(NAMES, 2):
        assert phone.save("machine", {**MACHINE, "name": name}).status_code == 200
        assert len(load(config).machines) == n, name


def test_an_open_audit_is_waited_for_by_name(phone, begun, monkeypatch):
    whole(phone)
    monkeypatch.setattr(ReadAnew, "open_on", ("mill-1",))
    answer = phone.post("anew")
    assert answer.status_code == 409 and "An audit is open on mill-1" in answer.json["reason"]
    assert begun == [] and phone.client.get("/api/set-up").json["open_on"] == ["mill-1"]


def test_the_page_has_all_it_needs_and_shows_what_is_written(phone):
    whole(phone)
    page = phone.client.get("/set-up").text
    assert page.count("<svg") == 6
    assert 'value="boring"' in page and "Bench, A 1" in page
    assert len(page.encode()) < 80_000


def test_the_start_page_of_an_empty_shop_says_what_is_missing(app, hub):
    hub.names = ()
    phone = Phone(app)
    page = phone.client.get("/").text
    assert "shop.toml" in page and "a gauge" in page and "a machine" in page
    assert 'href="/set-up"' in page
    assert 'href="/set-up"' not in app.test_client().get("/").text


def test_a_port_that_is_not_there_is_not_opened(phone):
    sent = {"port": "/etc/passwd", "example": "example-bcd"}
    answer = phone.client.post("/api/set-up/listen", json=sent, headers={HEADER: phone.token})
    assert answer.status_code == 422 and "There is no port /etc/passwd" in answer.json["reason"]
