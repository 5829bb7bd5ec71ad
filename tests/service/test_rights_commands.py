"""At the Pi itself: people and PINs, screens, the wall's address and the code in its terminal."""

import http.client
import io

import pytest

from daq.cli import main
from daq.ledger.store import Ledger
from daq.service.clock import SystemClock
from daq.service.rights import commands, pins
from daq.service.rights.access import Access
from daq.service.rights.store import Store
from tests.entry import QUICK
from tests.web.conftest import FakeHub, FakeInbox
from web.app import create_app
from web.serve import serve

ANN = "Anna Kelln"


@pytest.fixture
def command(tmp_path, capsys, monkeypatch):
    """Run one on the test's data folder; `typed` comes by a pipe."""
    monkeypatch.setattr(pins, "KEPT_BY", QUICK)
    monkeypatch.setattr(pins.enrol, "__defaults__", (QUICK,))

    def run(*args, typed=""):
        monkeypatch.setattr("sys.stdin", io.StringIO(typed))
        code = main([*args, "--data", str(tmp_path)])
        told = capsys.readouterr()
        return code, told.out + told.err

    return run


def test_a_person_is_given_a_pin_and_it_is_taken_away(command, tmp_path):
    code, told = command("access", "add", ANN, "--set-up", typed="2718\n2718\n")
    assert (code, told) == (0, f"{ANN} may sign and set up.\n")
    (person,) = Store(tmp_path).kept().people
    assert (person.name, person.role) == (ANN, "set-up")
    assert "2718" not in told
    assert command("access", "show")[1] == f"{ANN}: may sign and set up\n"
    assert command("access", "remove", "anna kelln")[0] == 0
    assert command("access", "show")[1].startswith("Nobody has a PIN")


@pytest.mark.parametrize("typed", ["2718\n2719\n", "27\n27\n", "", "abcd\nabcd\n"])
def test_a_pin_that_cannot_be_one_changes_nothing(command, tmp_path, typed):
    assert command("access", "add", ANN, typed=typed)[0] == 2
    assert Store(tmp_path).kept().people == ()


def test_whom_the_record_names_keeps_that_id(command, tmp_path, draft_of_somebody):
    assert command("access", "add", "ANNA  kelln", typed="2718\n2718\n")[0] == 0
    assert Store(tmp_path).kept().people[0].id == draft_of_somebody


@pytest.fixture
def draft_of_somebody(tmp_path, monkeypatch):
    """The id of somebody whom the record names."""
    clock = SystemClock()
    Ledger.open(tmp_path, stamp=clock.stamp(), engine="test").close()
    monkeypatch.setattr(commands, "_named", lambda data: {"id-1": ANN})
    return "id-1"


def test_without_a_record_nobody_is_named_yet(tmp_path):
    assert commands._named(tmp_path) == {}


def test_a_screen_is_unpaired(command, tmp_path):
    access = Access(tmp_path, SystemClock())
    access.ask_code()
    kept = access.pair(access.shown.code, "Phone")
    assert "screen Phone, paired " in command("access", "show")[1]
    assert command("access", "remove", "phone")[0] == 0
    assert access.standing(kept).right == "nothing"
    code, told = command("access", "remove", "phone")
    assert code == 2
    assert "no person and no screen of that name" in told


def test_what_the_service_changes_meanwhile_stays(command, tmp_path, monkeypatch):
    access = Access(tmp_path, SystemClock())
    change, kept = Store.change, []

    def paired(name):
        access.ask_code()
        return access.pair(access.shown.code, name)

    def late(store, how):
        if store is not access.store:
            kept.append(paired("Tablet"))
        change(store, how)

    gone = paired("Phone")
    monkeypatch.setattr(Store, "change", late)
    assert command("access", "remove", "phone")[0] == 0
    assert [access.standing(each).right for each in (*kept, gone)] == ["work"] * len(kept) + [
        "look"
    ]


@pytest.fixture
def served(tmp_path):
    app = create_app(FakeHub(), FakeInbox(), access=Access(tmp_path, SystemClock()))
    with serve(app, "127.0.0.1", 0) as server:
        yield app, f"http://127.0.0.1:{server.port}"


def test_the_terminal_shows_a_code_that_pairs(command, served):
    app, address = served
    code, told = command("wall", "--code", "--address", address)
    assert code == 0
    shown = app.extensions["headsweep"].access.shown
    assert shown.code in told
    assert app.test_client().post("/api/pairing", json={"code": shown.code}).status_code == 200


def test_the_link_lets_a_browser_in_once(command, served):
    _, address = served
    code, told = command("wall", "--link", "--address", address)
    link = told.strip()
    assert (code, link.startswith(f"{address}/own?ticket=")) == (0, True)
    statuses = []
    for _ in range(2):
        line = http.client.HTTPConnection(address.removeprefix("http://"))
        line.request("GET", link.removeprefix(address))
        with line.getresponse() as answer:
            statuses.append(answer.status)
            answer.read()
        line.close()
    assert statuses == [303, 403]


def test_another_data_folder_opens_nothing(served, tmp_path_factory, capsys):
    other = tmp_path_factory.mktemp("other")
    Access(other, SystemClock())
    _, address = served
    assert main(["wall", "--code", "--address", address, "--data", str(other)]) == 2
    assert "status 403" in capsys.readouterr().err


@pytest.mark.parametrize("address", ["ftp://127.0.0.1", "127.0.0.1:8642", "http://"])
def test_an_address_that_is_none_is_named(command, served, address):
    code, told = command("wall", "--code", "--address", address)
    assert code == 2
    assert "--address: found" in told


def test_without_a_key_there_is_no_wall(command):
    code, told = command("wall", "--link")
    assert code == 2
    assert "wall-key: the own wall's key cannot be read" in told
