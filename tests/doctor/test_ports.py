"""The ports: whose they are, who has them open, and twins. The tree is that of the twins' tests."""

import os
import re

import pytest

from tests.doctor.conftest import told
from tests.gauges.tree import Plug, Tree

PORT = "/dev/serial/by-id/usb-Serial_Adapter_A1-if00-port0"
FILE = "gauges/practice.toml"


@pytest.fixture
def plug(made):
    """Plug an adapter in; behind it is a terminal of the test's own, which has a number."""
    tree, fds = Tree(made.root), []

    def plug(socket, serial=None):
        master, node = os.openpty()
        fds.extend((master, node))
        adapter = Plug(os.ttyname(node), serial)
        tree.plug(adapter, socket)
        return adapter

    yield plug
    for fd in fds:
        os.close(fd)


@pytest.fixture
def gauge(made):
    """The practice mill's gauge is at this port."""
    made.shop()
    path = made.config / FILE

    def at(port):
        text = path.read_text(encoding="utf-8")
        path.write_text(re.sub(r"^port = .*$", f'port = "{port}"', text, flags=re.MULTILINE))

    at(PORT)
    return at


def test_a_port_is_its_gauges(made, look, gauge, plug):
    plug(1, "A1")
    (found,) = look("ports")
    assert found.fine and found.found.code == "doctor-port"
    assert found.found.of["gauge"] == "practice"


def test_gauges_that_go_together_share_a_port_and_others_are_told(made, look, gauge, plug):
    plug(1, "A1")
    text = (made.config / FILE).read_text(encoding="utf-8")
    mill = (made.config / "machines/practice-mill.toml").read_text(encoding="utf-8")
    mill = mill.replace('gauge = "practice"', 'gauge = "second"')
    (made.config / "machines/second-mill.toml").write_text(mill, encoding="utf-8")
    second = made.config / "gauges/second.toml"
    second.write_text(re.sub(r"^pattern = '", "pattern = 'C2;", text, flags=re.MULTILINE))
    (found,) = look("ports")
    assert found.fine and found.found.of["gauge"] == "practice, second"
    (made.config / "shop.toml").write_text("name =", encoding="utf-8")  # all files count then
    second.write_text(text)
    (found,) = look("ports")
    assert (found.fine, found.found.code) == (False, "doctor-port-twice")


def test_one_that_is_not_plugged_in_is_named_as_its_file_does(made, look, gauge):
    (found,) = look("ports")
    assert not found.fine and found.found.code == "doctor-port-gone"
    assert str(found.found.of["port"]).endswith(PORT)


def test_one_that_no_file_names_is_no_fault(made, look, gauge, plug):
    plug(1, "A1")
    plug(2, "B2")
    assert sorted(told(look("ports"))) == [(True, "doctor-port"), (True, "doctor-port-unnamed")]


def test_twins_under_one_name_are_to_be_named_by_socket(made, look, gauge, plug):
    gauge("/dev/serial/by-id/usb-Serial_Adapter-if00-port0")
    plug(1)
    plug(2)
    found = [each for each in look("ports") if not each.fine]
    assert told(found) == [(False, "port-ambiguous-in-full")]
    assert found[0].todo.code == "doctor-name-socket"


def test_another_process_at_the_port_is_named_and_the_service_is_not(made, look, gauge):
    device = made.put("/dev/ttyUSB0")
    made.link(PORT, "../../ttyUSB0")
    made.process(77, "prober", f3=device, f4="/dev/null")
    (found,) = look("ports")
    assert not found.fine and found.found.code == "doctor-port-held"
    assert (found.found.of["name"], found.found.of["pid"]) == ("prober", "77")
    made.holds_record(77)
    assert told(look("ports")) == [(True, "doctor-port")]


def test_what_hangs_on_a_port_that_no_file_names_is_others_business(made, look, gauge, plug):
    made.process(77, "other", f3=plug(2, "B2").node)
    gauge("socket://192.0.2.7:4001")
    assert told(look("ports")) == [(True, "doctor-port-unnamed")]


def test_a_computer_without_ports_and_a_gauge_in_the_network(made, look, gauge):
    gauge("socket://192.0.2.7:4001")
    assert told(look("ports")) == [(True, "doctor-no-port")]


def test_one_inside_the_data_folder_is_looked_for_there(made, look, gauge):
    gauge("ttys/practice")
    assert told(look("ports")) == [(False, "doctor-port-gone")]
    (made.data / "ttys").mkdir()
    (made.data / "ttys" / "practice").touch()
    assert told(look("ports")) == [(True, "doctor-port")]


def test_broken_files_leave_the_ports_that_are_named(made, look, gauge, plug):
    plug(1, "A1")
    (made.config / "shop.toml").write_text("name =", encoding="utf-8")
    assert told(look("ports")) == [(True, "doctor-port")]


@pytest.mark.parametrize(
    ("groups", "user", "fine"), [("20 44", 1000, True), ("44", 1000, False), ("", 0, True)]
)
def test_the_services_groups_are_held_against_its_ports(made, look, gauge, groups, user, fine):
    made.put("/etc/group", "dialout:x:20:\nvideo:x:44:")
    made.put("/etc/passwd", "kit:x:1000:1000::/:/bin/sh\nroot:x:0:0::/:/bin/sh")
    made.process("self", "headsweep", user, groups)
    (found,) = look("groups")
    assert found.fine is fine
    if not fine:
        assert found.todo.of == {"user": "kit", "group": "dialout"}


def test_while_no_service_runs_its_own_user_counts(made, look, gauge):
    made.put("/etc/passwd", "headsweep:x:990:990::/:/usr/sbin/nologin")
    made.put("/etc/group", "dialout:x:20:other\nheadsweep:x:990:")
    made.process("self", "bash", 0)
    (found,) = look("groups")
    assert found.todo.of == {"user": "headsweep", "group": "dialout"}
    made.put("/etc/group", "dialout:x:20:other,headsweep\nheadsweep:x:990:")
    assert [each.fine for each in look("groups")] == [True]


def test_a_ports_own_group_is_asked_for_and_the_pins_where_a_switch_is_on_one(made, look, gauge):
    mine = made.root.stat()
    for device in ("/dev/ttyUSB0", "/dev/gpiochip0"):
        made.put(device).chmod(0o660)
    made.put("/etc/group", f"ports:x:{mine.st_gid}:")
    made.process("self", "headsweep", mine.st_uid + 1)
    gauge("/dev/ttyUSB0")
    (found,) = look("groups")
    assert (found.fine, found.found.of["device"]) == (False, "ttyUSB0")
    made.process("self", "headsweep", mine.st_uid)  # who owns it needs no group
    assert [each.fine for each in look("groups")] == [True]
    made.process("self", "headsweep", mine.st_uid + 1)
    gauge("socket://192.0.2.7:4001")
    assert [each.fine for each in look("groups")] == [True]
    takes = '[[takes]]\nmachine = "practice-mill"\nsource = "pins"\npress = 17\n'
    with (made.config / "shop.toml").open("a", encoding="utf-8") as file:
        file.write(takes)
    (found,) = look("groups")
    assert (found.fine, found.found.of["device"]) == (False, "gpiochip0")
