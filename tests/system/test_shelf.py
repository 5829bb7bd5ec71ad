"""Gauges that have nothing in common, all at once on one daemon: each reads what it should."""

import time
from contextlib import ExitStack
from dataclasses import dataclass
from typing import Literal

import pytest

from daq.virtual.gauge import VirtualGauge
from daq.virtual.talk import OnKey
from daq.virtual.tty import PtyLine
from tests.cards import READY
from tests.patience import until
from tests.progress import besides
from tests.rigs.netport import NetPort
from tests.rigs.shelf import SHELF
from tests.system.daemon import headsweep
from tests.system.floor import Screen, furnish, papers

PRESS_S = 0.5


@dataclass(frozen=True)
class Described:
    """A gauge of the shelf: its file below the port, how far it is pushed, what it then shows.

    By hand: (pushed - zero) in its unit, to the nearest count, and minus when it counts down.
    """

    on: Literal["tty", "net"]
    file: str
    pushed_mm: float
    shows: str
    unit: str


GAUGES = {
    "text-plain": Described(  # 8.871 - 0.35
        "tty",
        r"""
        baud = 9600
        [talk]
        interval = "20 ms"
        [frame]
        shape = "text"
        pattern = '(?P<sign>[+-])(?P<value>\d{3}\.\d{3}) (?P<unit>mm)'
        """,
        8.871,
        "8.521",
        "mm",
    ),
    "text-trailing-sign": Described(
        "net",
        r"""
        baud = 4800
        bits = 7
        parity = "even"
        [talk]
        interval = "100 ms"
        [frame]
        shape = "text"
        terminator = "\r"
        pattern = ' *(?P<value>\d+\.\d{3})(?P<sign>[ -])'
        unit = "mm"
        """,
        8.871,
        "-8.521",
        "mm",
    ),
    "text-inch-asked": Described(  # 1.285 mm are 1011.8 counts of 0.00005 in
        "net",
        r"""
        baud = 1200
        bits = 7
        parity = "even"
        [talk]
        mode = "asks"
        request = '?\r'
        interval = "300 ms"
        [frame]
        shape = "text"
        pattern = '(?P<sign>[+-])(?P<value>\d\.\d{5})'
        unit = "in"
        """,
        1.635,
        "0.05060",
        "in",
    ),
    "text-key-thrice": Described(  # 505.9 counts of 0.0001 in
        "net",
        r"""
        baud = 4800
        bits = 7
        parity = "even"
        [talk]
        mode = "key"
        presses = 3
        [frame]
        shape = "text"
        terminator = "\r"
        pattern = ' *(?P<value>\d+\.\d{4})(?P<sign>[ -]) (?P<unit>in)'
        """,
        1.635,
        "-0.0506",
        "in",
    ),
    "bcd-packed": Described(  # FF 00 85 21 03 0F on the wire: bytes that are no text
        "tty",
        r"""
        baud = 2400
        [talk]
        interval = "100 ms"
        [frame]
        shape = "bcd"
        layout = ["filler ff", "digits 6", "unit", "places", "sign", "filler f"]
        signs = { 0 = "+", 1 = "-" }
        units = { 0 = "mm", 1 = "in" }
        """,
        8.871,
        "8.521",
        "mm",
    ),
    "bcd-hex-asked": Described(
        "net",
        r"""
        baud = 4800
        bits = 7
        parity = "even"
        [talk]
        mode = "asks"
        request = 'RD\r'
        interval = "200 ms"
        [frame]
        shape = "bcd"
        packing = "hex"
        layout = ["unit", "sign", "digits 6", "places"]
        terminator = "\r"
        signs = { c = "+", d = "-" }
        units = { 0 = "mm", 1 = "in" }
        """,
        1.635,
        "0.0506",
        "in",
    ),
    "bits-lsb": Described(  # 852.1 counts of 0.01 mm
        "tty",
        r"""
        baud = 9600
        [talk]
        interval = "80 ms"
        pause = "40 ms"
        [frame]
        shape = "bits"
        layout = ["magnitude 20", "fixed 00", "unit", "sign", "fixed 10100101"]
        order = "low-first"
        lowest_first = true
        apart = "pause"
        step = { mm = 0.01, in = 0.0005 }
        signs = { 0 = "+", 1 = "-" }
        units = { 0 = "mm", 1 = "in" }
        """,
        8.871,
        "8.52",
        "mm",
    ),
    "bits-inch": Described(  # 101.2 counts of 0.0005 in
        "tty",
        r"""
        baud = 38400
        [talk]
        interval = "100 ms"
        pause = "40 ms"
        [frame]
        shape = "bits"
        layout = ["fixed 01101001", "magnitude 18", "sign", "fixed 01101"]
        order = "low-first"
        lowest_first = true
        apart = "pause"
        unit = "in"
        step = { in = 0.0005 }
        signs = { 0 = "+", 1 = "-" }
        """,
        1.635,
        "-0.0505",
        "in",
    ),
}


@pytest.fixture
def gauges(tmp_path):
    with ExitStack() as plugged:
        made = {}
        for key, described in GAUGES.items():
            port = NetPort() if described.on == "net" else PtyLine(tmp_path / key)
            made[key] = plugged.enter_context(VirtualGauge(SHELF[key], port))
            made[key].set(described.pushed_mm)
        yield made


def finest(gauge):
    """One step of its last digit, in the unit it shows."""
    scale = gauge.model.wire.scales[gauge.model.unit]
    return f"{scale.step * 10.0**-scale.places:.5f} {gauge.model.unit}"


@pytest.fixture
def shop(shop, gauges):
    def port(gauge):
        return gauge.port.url if isinstance(gauge.port, NetPort) else gauge.port.link

    furnish(
        shop,
        {
            key: f'{papers(key, finest(gauge))}[line]\nport = "{port(gauge)}"\n{GAUGES[key].file}'
            for key, gauge in gauges.items()
        },
    )
    return shop


@pytest.fixture
def screens(daemon):
    return {key: Screen(daemon.client, key) for key in GAUGES}


def well(screen):
    screen.until(lambda snapshot: snapshot["faults"] == [])


def reads(screen, gauge, shows):
    """Wait until the screen shows this; a gauge with a key is pressed until it does."""
    if not isinstance(gauge.model.talk, OnKey):
        return screen.until_live(lambda live: live.text == shows and live.fresh)
    due_s = 0.0

    def shown():
        nonlocal due_s
        if time.monotonic() >= due_s:  # a press before the port was opened is lost
            gauge.press_key()
            due_s = time.monotonic() + PRESS_S
        return live if (live := screen.live()).text == shows else None

    return until(shown, screen.live)


def test_eight_unlike_gauges_at_once(gauges, screens):
    for key, described in GAUGES.items():
        live = reads(screens[key], gauges[key], described.shows)
        keyed = isinstance(gauges[key].model.talk, OnKey)
        assert (live.gauge, live.unit, live.keyed, live.fresh) == (
            key, described.unit, keyed, not keyed
        )  # fmt: skip
        well(screens[key])
    for key, described in GAUGES.items():
        assert screens[key].live().text == described.shows


def test_a_frame_whose_bytes_are_no_text_is_evidence_that_can_be_read_again(
    gauges, screens, shop, daemon
):
    screen = screens["bcd-packed"]
    reads(screen, gauges["bcd-packed"], GAUGES["bcd-packed"].shows)
    screen.do("open", {"reason": "scheduled"})
    screen.do("readied", READY)
    screen.do("warmed", {"warm": True})
    screen.do("prepared", {"serial_number": "bcd-packed"})
    screen.do("take")
    done = headsweep("ledger", "recheck", "--data", shop.data)
    assert (done.returncode, besides(done.stderr)) == (0, "")
