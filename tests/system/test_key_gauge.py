"""A gauge that sends on its key, on a real tty through the real service: its key is the take."""

import threading
import time
import uuid
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any
from unittest.mock import patch

import pytest

from daq.app import Service, service
from daq.ledger import LedgerView
from daq.metrology.presses import GAP_S
from daq.service import sources
from daq.service.files import load
from daq.service.switchboard import Switchboard
from daq.virtual.gauge import VirtualGauge
from daq.virtual.model import GaugeModel
from daq.virtual.talk import OnKey
from daq.virtual.tty import PtyLine
from daq.virtual.uart import LineEnd
from daq.virtual.wires import TextSpec
from daq.words import Ack, Command, Event, Live
from tests.cards import READY
from tests.patience import until
from tests.rigs.shelf import MICRON
from tests.system.shop import MACHINE, Shop
from tests.words import en, told

FREE_MM = 0.0
FRAMES = 2  # that one press of this gauge sends, with no pause: a busy machine stretches one
FINGER = 1.5  # times the least time between two presses: a quick one
SWEEP_MM = {"front": 1.20, "right": 1.30, "back": 1.10, "left": 1.00}
FILE = r"""
name = "Shop gauge with a key"
serial_number = "P-0417"
kind = "plunger"
counts_up = true
resolution = "0.001 mm"
travel = "12.7 mm"
max_error = "0.004 mm"
calibration_due = 2099-12-31
[line]
port = "{port}"
[talk]
mode = "key"
presses = {presses}
[frame]
shape = "text"
pattern = '(?P<sign>[+-])(?P<value>\d+\.\d+) (?P<unit>mm|in)'
"""


class Keyed:
    """The gauge, the service at its other end, and what came of it."""

    def __init__(
        self, running: Service, gauge: VirtualGauge, shop: Shop, switchboard: Switchboard
    ) -> None:
        self.running, self.gauge, self.shop = running, gauge, shop
        self.switchboard = switchboard

    @property
    def seq(self) -> int:
        return self.running.hub.snapshot(MACHINE).seq

    @property
    def live(self) -> Live:
        return self.running.hub.live(MACHINE)

    @property
    def frames(self) -> int:
        """How many came so far."""
        return self.live.n + 1 if self.live.text else 0

    @property
    def step(self) -> str:
        return str(told(self.running.hub.snapshot(MACHINE).pages["wall"])["step"])

    def press(self, compression_mm: float) -> None:
        """Stand at this reading and press the key."""
        self.gauge.set(compression_mm)
        self.gauge.press_key()

    def submit(self, kind: str, **payload: str) -> Ack:
        """Press a button of a page."""
        return self.running.inbox.submit(Command(str(uuid.uuid4()), MACHINE, kind, payload))

    def until(self, true_of: Callable[[], bool]) -> None:
        until(true_of, lambda: (self.step, self.running.hub.snapshot(MACHINE).said))

    def taken(self, compression_mm: float, presses: int = 1) -> None:
        """Stand at this reading, press the key so often, and wait for the event."""
        seq = self.seq
        for _ in range(presses):
            frames = self.frames + FRAMES
            self.press(compression_mm)
            self.until(lambda frames=frames: self.frames == frames)
            time.sleep(FINGER * GAP_S)
        # The screens are told before the press is over; until it is, no other one is heard.
        self.until(lambda: self.seq > seq and not self.switchboard._busy.locked())

    def events(self, kind: str) -> list[Event]:
        with LedgerView.open(self.shop.data) as view:
            return [event for event in view.events() if event.type == kind]


@pytest.fixture(params=[1, 3])
def presses(request: pytest.FixtureRequest) -> int:
    return int(request.param)


@contextmanager
def at_work(shop: Shop, presses: int) -> Iterator[Keyed]:
    file = FILE.replace("{port}", str(shop.tty)).replace("{presses}", str(presses))
    (shop.config / "gauges" / "practice.toml").write_text(file, encoding="utf-8")
    with (shop.config / "shop.toml").open("a", encoding="utf-8") as config:
        config.write(f'\n[[takes]]\nmachine = "{MACHINE}"\nsource = "key"\n')
    frames = TextSpec("{sign}{number} {unit}\r\n", MICRON)
    model = GaugeModel(
        "keyed", frames, LineEnd(9600), OnKey(times=FRAMES, pause_s=0.0), zero_mm=0.0
    )
    gauge = VirtualGauge(model, PtyLine(shop.tty))
    stations: list[Switchboard] = []

    def kept(*given: Any) -> Switchboard:
        stations.append(Switchboard(*given))
        return stations[-1]

    with (
        gauge,
        patch.object(sources, "Switchboard", kept),
        service(load(shop.config), shop.data) as running,
    ):
        made = Keyed(running, gauge, shop, *stations)
        made.until(lambda: "practice" in running.hub.health()["gauges"])
        yield made


@pytest.fixture
def keyed(shop: Shop, presses: int) -> Iterator[Keyed]:
    with at_work(shop, presses) as made:
        yield made


def to_the_sweep(keyed: Keyed, presses: int) -> None:
    assert keyed.submit("open", reason="scheduled").accepted
    assert keyed.submit("readied", **READY).accepted
    assert keyed.submit("warmed", warm=True).accepted
    assert keyed.submit("prepared", serial_number="P-0417").accepted
    keyed.taken(FREE_MM, presses)
    keyed.taken(1.0, presses)
    keyed.until(lambda: keyed.step == "touch-back")
    keyed.taken(FREE_MM, presses)
    keyed.until(lambda: keyed.step == "as-found")


@pytest.mark.parametrize("presses", [1])
def test_a_sweep_by_the_gauges_key_alone(keyed: Keyed, presses: int) -> None:
    to_the_sweep(keyed, presses)
    for value_mm in (*SWEEP_MM.values(), SWEEP_MM["front"]):
        keyed.taken(value_mm, presses)
    readings = [event.data["reading"] for event in keyed.events("ReadingTaken")]
    assert [r["position"] for r in readings] == [*SWEEP_MM, "front"]
    assert [r["mean_mm"] for r in readings] == pytest.approx(
        [*SWEEP_MM.values(), SWEEP_MM["front"]]
    )
    assert {event.actor for event in keyed.events("ReadingTaken")} == {"gauge key"}
    (sweep,) = keyed.events("SweepDone")
    # The sign convention: an axis is as much out as its parked side reads more than the other.
    assert sweep.data["results"]["side"]["d_mm"] == pytest.approx(
        SWEEP_MM["right"] - SWEEP_MM["left"]
    )
    assert sweep.data["results"]["nod"]["d_mm"] == pytest.approx(
        SWEEP_MM["front"] - SWEEP_MM["back"]
    )


def test_a_press_of_the_page_and_then_of_the_key_is_one_reading(keyed: Keyed, presses: int) -> None:
    to_the_sweep(keyed, presses)
    answers: list[Ack] = []
    page = threading.Thread(target=lambda: answers.append(keyed.submit("take", position="front")))
    page.start()
    keyed.until(lambda: keyed.running.inbox._decider.busy)
    keyed.taken(SWEEP_MM["front"], presses)
    page.join()
    assert answers[0].accepted
    assert len(keyed.events("ReadingTaken")) == 1
    said = keyed.running.hub.snapshot(MACHINE).said
    assert said is not None and said["outcome"] == "taken"


@pytest.mark.parametrize("presses", [1])
def test_the_number_is_told_with_its_age_and_never_as_live(keyed: Keyed) -> None:
    assert (keyed.live.fresh, keyed.live.keyed, keyed.live.text) == (False, True, "")
    keyed.press(0.25)
    keyed.until(lambda: keyed.live.text != "")
    assert (keyed.live.fresh, keyed.live.keyed, keyed.live.text) == (False, True, "0.250")
    assert keyed.events("ReadingTaken") == []


def test_a_reading_half_taken_does_not_hold_up_the_end(shop: Shop) -> None:
    with at_work(shop, presses=3) as keyed:
        keyed.submit("open", reason="scheduled")
        keyed.submit("readied", **READY)
        keyed.submit("warmed", warm=True)
        keyed.submit("prepared", serial_number="P-0417")
        keyed.press(FREE_MM)
        keyed.until(lambda: keyed.frames >= FRAMES)
        keyed.until(lambda: keyed.running.hub.snapshot(MACHINE).said is not None)
    # By a take that was waited for to its end another reason would be given.
    said = keyed.running.hub.snapshot(MACHINE).said
    assert (said["outcome"], en(said["say"])) == ("refused", "NOT TAKEN: The service is stopping.")
    assert keyed.events("FreeRead") == []
