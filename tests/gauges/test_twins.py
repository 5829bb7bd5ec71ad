"""Twin adapters, live: no sample ever under the wrong gauge."""

import os
import threading
from contextlib import suppress

import pytest

from tests.gauges.conftest import PATIENCE_S, FarEnd, Heard, flowing_frame
from tests.gauges.tree import Plug, Tree, point
from tests.words import en


class Gauge(threading.Thread):
    """Sends its own number all the time, over one pseudo-terminal."""

    def __init__(self, far_end, value):
        super().__init__(daemon=True)
        os.set_blocking(far_end.master, False)
        self.far_end, self.value = far_end, value
        self.stopping = threading.Event()

    def run(self):
        while not self.stopping.wait(0.001):
            with suppress(BlockingIOError):  # nobody reads
                self.far_end.send(flowing_frame(self.value))

    def stop(self):
        self.stopping.set()
        self.join()


@pytest.fixture
def gauges(tmp_path):
    made = []
    for value in (1.0, 2.0):
        end = FarEnd(tmp_path / f"port-{value}")
        end.plug()
        made.append(Gauge(end, value))
        made[-1].start()
    yield made
    for each in made:
        each.stop()
        each.far_end.unplug()


@pytest.fixture
def tree(tmp_path):
    return Tree(tmp_path)


def plug_of(gauge, serial=None):
    return Plug(gauge.far_end.node, serial)


def values(heard):
    found = set()
    while not heard.samples.empty():
        found.add(heard.samples.get().value_mm)
    return found


def flows(heard, value):
    """Wait for a sample, and make sure that it is the gauge's."""
    assert heard.sample().value_mm == value


class Pair:
    """Two readers, each of a twin by its socket."""

    def __init__(self, tree, gauges, make_reader, heard):
        self.tree, self.gauges = tree, gauges
        self.heard = (heard, Heard())
        self.readers = []
        for k, gauge in enumerate(gauges):
            tree.plug(plug_of(gauge), k)
        for k, each in enumerate(self.heard):
            reader = make_reader(tree.by_path(k), gauge=f"dial-{k}", sysfs=tree.sysfs, heard=each)
            self.readers.append(reader)
            reader.start()

    def lead(self, *order):
        """Let the names lead to these gauges."""
        for k, which in enumerate(order):
            point(self.tree.by_path(k), self.gauges[which].far_end.node)

    def until(self, code):
        return [each.until(code) for each in self.heard]

    def values(self):
        return [values(each) for each in self.heard]


@pytest.fixture
def pair(tree, gauges, make_reader, heard):
    return Pair(tree, gauges, make_reader, heard)


def test_two_links_swapped_are_refused_until_they_are_swapped_back(pair):
    runs = [status.run for status in pair.until("ok")]
    for _ in range(20):
        pair.lead(1, 0)
        for lost in pair.until("mixed-up"):
            assert "leads to another device than before: were two gauges exchanged?" in en(lost.say)
        pair.lead(0, 1)
        again = [status.run for status in pair.until("ok")]
        assert again != runs
        for each, value in zip(pair.heard, (1.0, 2.0), strict=True):
            flows(each, value)
    for reader in pair.readers:
        reader.stop()
    # Each gauge has a number of its own: none came under the other's name.
    assert pair.values() == [{1.0}, {2.0}]


def test_swapped_links_stay_refused(pair):
    pair.until("ok")
    pair.lead(1, 0)
    pair.until("mixed-up")
    pair.values()
    for reader in pair.readers:
        for _ in range(5):
            tried(reader)
        assert reader.status.code == "mixed-up"
        reader.stop()
    assert pair.values() == [set(), set()]


def test_adapters_swapped_before_they_were_pulled_out_are_what_their_sockets_say(pair):
    pair.until("ok")
    pair.lead(1, 0)
    pair.until("mixed-up")
    for k in (0, 1):
        pair.tree.by_path(k).unlink()
    pair.until("unplugged")
    pair.lead(0, 1)
    pair.until("ok")


def tried(reader):
    """Wait until the reader has tried its port again."""
    happened = threading.Event()
    verify = reader._port._identity.verify

    def spied(node):
        happened.set()
        verify(node)

    reader._port._identity.verify = spied
    assert happened.wait(PATIENCE_S)
    reader._port._identity.verify = verify


def test_a_twin_takes_the_name_over_and_is_refused_until_it_is_gone(
    tree, gauges, make_reader, heard
):
    one, two = gauges
    tree.plug(plug_of(one), "1")
    reader = make_reader(tree.by_id(plug_of(one)), sysfs=tree.sysfs)
    reader.start()
    run = heard.until("ok").run
    flows(heard, 1.0)
    tree.plug(plug_of(two), "2")
    assert "leads to another device" in en(heard.until("mixed-up").say)
    assert "is in another socket than before" in en(heard.until("mixed-up").say)
    tree.pull(plug_of(two), "2")
    tree.plug(plug_of(one), "1")
    back = heard.until("ok")
    assert back.run != run
    reader.stop()
    assert values(heard) == {1.0}


@pytest.mark.parametrize("serial", ["A1", None])
def test_pulled_out_and_put_into_another_socket(tree, gauges, make_reader, heard, serial):
    (one, _) = gauges
    tree.plug(plug_of(one, serial), "1")
    port = tree.by_id(plug_of(one, serial))
    reader = make_reader(port, sysfs=tree.sysfs)
    reader.start()
    heard.until("ok")
    one.stop()
    tree.pull(plug_of(one, serial), "1")
    one.far_end.unplug()
    heard.until("unplugged")
    values(heard)
    one.far_end.plug()
    again = Gauge(one.far_end, 1.0)
    again.start()
    tree.plug(plug_of(one, serial), "2")
    if serial:
        heard.until("ok")
        flows(heard, 1.0)
    else:
        heard.until("mixed-up")
        assert heard.samples.empty()
    again.stop()
    reader.stop()
