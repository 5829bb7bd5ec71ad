"""The adapter a port was, and the others it must not be taken for."""

import os
from pathlib import Path

import pytest

from daq.gauges.errors import LinkError
from daq.gauges.identity import Identity, identity
from tests.gauges.tree import Plug, Tree, char
from tests.words import en


@pytest.fixture
def tree(tmp_path):
    return Tree(tmp_path)


@pytest.fixture
def nodes():
    """Device nodes: pseudo-terminals, for each has a number of its own."""
    ends = [os.openpty() for _ in range(3)]
    yield [os.ttyname(slave) for _, slave in ends]
    for pair in ends:
        for end in pair:
            os.close(end)


def number(path):
    return Path(path).stat().st_rdev


def refusal(made, path):
    with pytest.raises(LinkError) as caught:
        made.verify(number(path))
    return caught.value


def test_the_same_again(tree, nodes):
    for k, serial in enumerate((None, "A1")):
        plug = Plug(nodes[k], serial)
        tree.plug(plug, str(k))
        for port in (tree.by_id(plug), tree.by_path(k)):
            made = Identity(str(port), sysfs=tree.sysfs)
            made.verify(number(port))
            made.verify(number(port))


def test_with_a_serial_number_any_socket_will_do(tree, nodes):
    plug = Plug(nodes[0], "A1")
    tree.plug(plug, "1")
    made = Identity(str(tree.by_id(plug)), sysfs=tree.sysfs)
    made.verify(number(tree.by_id(plug)))
    tree.pull(plug, "1")
    tree.plug(Plug(nodes[1], "A1"), "2")
    made.verify(number(tree.by_id(plug)))


def test_without_one_it_must_come_back_to_its_socket(tree, nodes):
    plug = Plug(nodes[0])
    port = tree.by_id(plug)
    tree.plug(plug, "1")
    made = Identity(str(port), sysfs=tree.sysfs)
    made.verify(number(port))
    tree.pull(plug, "1")
    moved = Plug(nodes[1])
    tree.plug(moved, "2")
    error = refusal(made, port)
    assert error.code == "mixed-up"
    assert f"{port} is in another socket than before (platform-usb-0:2:1.0-port0, it" in en(
        error.say
    )
    assert "put it back, or write the new socket in the gauge's file" in en(error.say)
    tree.pull(moved, "2")
    tree.plug(Plug(nodes[2]), "1")
    made.verify(number(port))


def test_without_a_name_yet_it_is_just_being_plugged_in(tree, nodes):
    plug = Plug(nodes[0])
    port = tree.by_id(plug)
    tree.plug(plug, "1")
    made = Identity(str(port), sysfs=tree.sysfs)
    made.verify(number(port))
    tree.pull(plug, "1")
    tree.plug(plug, "1", named=False)
    error = refusal(made, port)
    assert (error.code, en(error.say)) == ("unplugged", f"{port} is just being plugged in.")
    tree.plug(plug, "1")
    made.verify(number(port))


@pytest.mark.parametrize("serial", [None, "0001"])
def test_which_of_two_twins_is_not_guessed(tree, nodes, serial):
    one, other = Plug(nodes[0], serial), Plug(nodes[1], serial)
    tree.plug(one, "1")
    tree.plug(other, "2")
    made = Identity(str(tree.by_id(one)), sysfs=tree.sysfs)
    error = refusal(made, tree.by_id(one))
    assert error.code == "mixed-up"
    assert "may be any of several adapters that differ in nothing but their socket" in en(error.say)
    assert "(platform-usb-0:1:1.0-port0 or platform-usb-0:2:1.0-port0)" in en(error.say)
    for socket in (1, 2):
        by_path = Identity(str(tree.by_path(socket)), sysfs=tree.sysfs)
        by_path.verify(number(tree.by_path(socket)))


@pytest.mark.parametrize("serial", [None, "0001"])
def test_a_twin_that_comes_later_is_not_taken_for_the_first(tree, nodes, serial):
    one, other = Plug(nodes[0], serial), Plug(nodes[1], serial)
    port = tree.by_id(one)
    tree.plug(one, "1")
    made = Identity(str(port), sysfs=tree.sysfs)
    made.verify(number(port))
    tree.plug(other, "2")  # takes the name over
    assert refusal(made, port).code == "mixed-up"
    tree.plug(one, "1")
    made.verify(number(port))


def test_another_kind_is_no_twin(tree, nodes):
    one, other = Plug(nodes[0]), Plug(nodes[1], product="0002")
    tree.plug(other, "2")
    tree.plug(one, "1")
    Identity(str(tree.by_id(one)), sysfs=tree.sysfs).verify(number(nodes[0]))


def test_two_ports_of_one_adapter_are_no_twins(tree, nodes):
    tree.plug(Plug(nodes[0]), "1")
    tree.plug(Plug(nodes[1]), "1")
    tree.by_path("1b").symlink_to(nodes[0])
    port = tree.by_id(Plug(nodes[1]))
    made = Identity(str(port), sysfs=tree.sysfs)
    made.verify(number(port))
    assert made.adapter(number(port)).kin == frozenset()


def test_another_adapter_in_the_same_socket(tree, nodes):
    port = tree.by_path(1)
    tree.plug(Plug(nodes[0], "A1"), "1")
    made = Identity(str(port), sysfs=tree.sysfs)
    made.verify(number(port))
    tree.plug(Plug(nodes[1], "B2"), "1")
    error = refusal(made, port)
    assert error.code == "mixed-up"
    assert "(serial number B2, it was A1): put the first one back, or restart" in en(error.say)
    tree.plug(Plug(nodes[2]), "1")
    assert "(serial number none, it was A1)" in en(refusal(made, port).say)


def test_a_port_the_system_knows_nothing_of(tmp_path, nodes):
    made = Identity(nodes[0], sysfs=tmp_path)
    for node in nodes:
        made.verify(number(node))


def test_what_stands_above_a_device_need_not_be_usb(tree, nodes):
    tree.plug(Plug(nodes[0]), "1", described=False)
    entry = char(tree.sysfs, nodes[0])
    (entry / "device").mkdir(parents=True)
    made = Identity(str(tree.by_path(1)), sysfs=tree.sysfs)
    assert made.adapter(number(nodes[0])).number == ""


def test_a_link_in_by_path_that_leads_nowhere(tree, nodes):
    tree.plug(Plug(nodes[0]), "1")
    tree.by_path(2).symlink_to("/nowhere")
    made = Identity(str(tree.by_path(1)), sysfs=tree.sysfs)
    assert made.adapter(number(nodes[0])).sockets == {tree.by_path(1).name}


def test_only_a_path_has_an_identity():
    assert identity("socket://192.168.1.20:4001") is None
    assert identity("loop://") is None
    assert identity("/dev/ttyUSB0") is not None
