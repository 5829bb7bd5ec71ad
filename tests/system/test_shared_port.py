"""A receiver of three transmitters drives three machines; two numbers in one line drive a bar."""

import threading

import pytest

from daq.virtual.tty import PtyLine
from tests.system.client import codes
from tests.system.floor import Screen, furnish, papers

PERIOD_S = 0.02
SHOWN = {"C1": 1.234, "C2": -2.5, "C3": 0.007}
FILE = r"""
[line]
port = "{port}"
[talk]
interval = "60 ms"
[frame]
shape = "fields"
layout = [{layout}]
terminator = "\r\n"
unit = "mm"
"""
NUMBER = '"sign", "number 3.3"'
ONE_LINE = {"near": f'"text A=", {NUMBER}, "any"', "far": f'"any", "text  B=", {NUMBER}'}


class Receiver:
    """Sends the number of each transmitter in turn, or both of `near` and `far` in one line."""

    def __init__(self, link, shown):
        self.line = PtyLine(link)
        self.shown, self.off = dict(shown), set()
        self._stopping = threading.Event()
        self._thread = threading.Thread(target=self._talk, daemon=True)

    def __enter__(self):
        self.line.plug()
        self._thread.start()
        return self

    def __exit__(self, *_):
        self._stopping.set()
        self._thread.join()
        self.line.unplug()

    def _lines(self):
        if "near" in self.shown:
            return ["A={near:+08.3f} B={far:+08.3f}".format(**self.shown)]
        return [f"{k};{v:+08.3f}" for k, v in self.shown.items() if k not in self.off]

    def _talk(self):
        while True:
            for line in self._lines():
                if self._stopping.wait(PERIOD_S):
                    return
                self.line.send(f"{line}\r\n".encode())


@pytest.fixture
def receiver(request, tmp_path, shop):
    """The shop's gauges are all on one port."""
    layouts = ONE_LINE
    if request.param is SHOWN:
        layouts = {key: f'"text {key};", {NUMBER}' for key in SHOWN}
    with Receiver(tmp_path / "receiver", request.param) as talking:
        port = talking.line.link
        files = {k: papers(k) + FILE.format(port=port, layout=each) for k, each in layouts.items()}
        furnish(shop, files)
        if layouts is ONE_LINE:
            (shop.config / "machines" / "far.toml").unlink()
            shop.add("machines/near.toml", 'second_gauge = "far"\nsecond_radius = "90 mm"')
        yield talking


def shows(screens, key, value_mm):
    live = screens[key].until_live(lambda live: live.fresh and live.text == f"{value_mm:.3f}")
    assert (live.gauge, live.unit) == (key, "mm")
    screens[key].until(lambda snapshot: codes(snapshot) == [])


@pytest.mark.parametrize("receiver", [SHOWN], indirect=True)
def test_three_transmitters_drive_three_machines(receiver, daemon):
    screens = {key: Screen(daemon.client, key) for key in SHOWN}
    for key, value_mm in SHOWN.items():
        shows(screens, key, value_mm)
    receiver.off.add("C2")
    screens["C2"].until(lambda snapshot: codes(snapshot) == ["other-channel"])
    assert not screens["C2"].live().fresh
    receiver.shown |= {"C1": 3.0, "C3": 4.0}
    for key in ("C1", "C3"):
        shows(screens, key, receiver.shown[key])
    assert codes(screens["C2"].snapshot()) == ["other-channel"]
    receiver.off.clear()
    shows(screens, "C2", SHOWN["C2"])
    runs = {key: screen.live().run for key, screen in screens.items()}
    receiver.line.unplug()
    for screen in screens.values():
        screen.until(lambda snapshot: codes(snapshot) == ["unplugged"])
    receiver.line.plug()
    for key, screen in screens.items():
        shows(screens, key, receiver.shown[key])
        assert screen.live().run != runs[key]
    cards = daemon.client.ask("GET", "/api/setup").body["gauges"]
    assert {card["key"]: card["wire"]["bad"] for card in cards} == dict.fromkeys(SHOWN, 0)


@pytest.mark.parametrize("receiver", [{"near": 0.1, "far": 0.1}], indirect=True)
def test_two_numbers_in_one_line_drive_a_bar(receiver, daemon):
    screen = Screen(daemon.client, "near")

    def both(near, far):
        receiver.shown = {"near": near, "far": far}
        screen.until_live(lambda live: live.fresh and live.value_mm == near)

    both(0.1, 0.1)
    screen.opened()
    screen.do("prepared", {"serial_number": "near"})
    screen.do("take")
    both(0.9, 0.9)
    both(0.1, 0.1)
    screen.do("pushed")
    both(1.2, 0.7)
    screen.do("take", {"position": "front"})
    (event,) = daemon.events("ReadingTaken")
    read = {event.data[k]["gauge"]: event.data[k]["mean_mm"] for k in ("reading", "second")}
    assert read == {"near": pytest.approx(1.2), "far": pytest.approx(0.7)}
