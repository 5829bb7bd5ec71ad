"""A sweep by switches alone: pins of a chip that is none, a gauge on a real tty, the service."""

import time
import uuid
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from daq.app import Service, service
from daq.ledger import LedgerView
from daq.metrology.flicks import FLICKS, REST_NS
from daq.service import powers_off
from daq.service.files import load
from daq.service.sources import pins
from daq.words import Ack, Command, Event
from tests.cards import READY
from tests.patience import until
from tests.pinchip import PinChip, kernel
from tests.system.person import FREE_MM, NUMBER, PUSHED_MM
from tests.system.shop import MACHINE, Shop
from tests.system.ttygauge import PERIOD_S, TtyGauge
from tests.words import en, told

PRESS, PLACES = 17, {"front": 5, "right": 6, "back": 13, "left": 19}
SWEEP = (("front", 1.20), ("right", 1.30), ("back", 1.10), ("left", 1.00), ("front", 1.20))
TAKES = f"""
[[takes]]
machine = "{MACHINE}"
source = "pins"
press = {PRESS}
""" + "".join(f"{place} = {pin}\n" for place, pin in PLACES.items())


class Hands:
    """At the gauge and at the switches; no screen is touched."""

    def __init__(self, running: Service, gauge: TtyGauge, chip: PinChip, data: Path) -> None:
        self.running, self.gauge, self.chip, self.data = running, gauge, chip, data

    @property
    def step(self) -> str:
        return str(told(self.running.hub.snapshot(MACHINE).pages["wall"])["step"])

    def until(self, true_of: Callable[[], bool]) -> None:
        until(true_of, lambda: (self.step, self.running.hub.snapshot(MACHINE).said))

    def rest(self, value_mm: float) -> None:
        """The arm rests where the gauge reads this."""
        self.gauge.move_to(value_mm)
        n = self.running.hub.live(MACHINE).n + round(1.3 * REST_NS / 1e9 / PERIOD_S)
        self.until(lambda: self.running.hub.live(MACHINE).n > n)

    def flick(self, value_mm: float) -> None:
        """The arm is flicked as often as it is asked for, and comes back each time."""
        for _ in range(FLICKS):
            self.rest(value_mm)
            self.gauge.move_to(value_mm + 0.3)
        self.rest(value_mm)

    def pressed(self, pin: int) -> None:
        """Press and let go, and wait for what comes of it."""
        seq = self.running.hub.snapshot(MACHINE).seq
        self.chip.drive(pin, 0)
        self.chip.drive(pin, None)
        self.until(lambda: self.running.hub.snapshot(MACHINE).seq > seq)

    def events(self, kind: str) -> list[Event]:
        with LedgerView.open(self.data) as view:
            return [event for event in view.events() if event.type == kind]


@contextmanager
def at_work(shop: Shop, gauge: TtyGauge, dev: Path) -> Iterator[Hands]:
    """An audit prepared on a page: its number is typed there. The rest is the switches'."""
    with (shop.config / "shop.toml").open("a", encoding="utf-8") as config:
        config.write(TAKES)
    dev.mkdir()
    with kernel(dev) as made:
        chip = made.chip()
        with service(load(shop.config), shop.data) as running:
            hands = Hands(running, gauge, chip, shop.data)
            chip.until_held(PRESS)
            hands.until(lambda: running.hub.live(MACHINE).fresh)
            for kind, payload in (
                ("open", {"reason": "scheduled"}),
                ("readied", READY),
                ("warmed", {"warm": True}),
                ("prepared", {"serial_number": NUMBER}),
            ):
                ack: Ack = running.inbox.submit(Command(str(uuid.uuid4()), MACHINE, kind, payload))
                assert ack.accepted, en(ack.reason)
            yield hands


@pytest.mark.parametrize(
    "by", ["one pedal", pytest.param("a switch for each place", marks=pytest.mark.long)]
)
def test_a_sweep_without_a_screen(
    shop: Shop, gauge: TtyGauge, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, by: str
) -> None:
    monkeypatch.setattr(pins, "BETWEEN_NS", 0)  # no finger is so quick
    with at_work(shop, gauge, tmp_path / "dev") as hands:
        gauge.move_to(FREE_MM)
        hands.pressed(PRESS)
        assert hands.step == "touch-push"
        gauge.move_to(FREE_MM + PUSHED_MM)
        gauge.move_to(FREE_MM)
        hands.pressed(PRESS)
        assert hands.step == "as-found"
        hands.flick(SWEEP[0][1])
        for place, value_mm in SWEEP:
            gauge.move_to(value_mm)
            hands.pressed(PRESS if by == "one pedal" else PLACES[place])
        readings = [event.data["reading"] for event in hands.events("ReadingTaken")]
        assert [(r["position"], r["mean_mm"]) for r in readings] == [
            (place, pytest.approx(value_mm)) for place, value_mm in SWEEP
        ]
        assert {event.actor for event in hands.events("ReadingTaken")} == {"pin"}
        (flicked,) = hands.events("Flicked")
        assert flicked.data["ok"] and len(flicked.data["rested_face_mm"]) == FLICKS + 1
        (sweep,) = hands.events("SweepDone")
        # The sign convention: an axis is as much out as its parked side reads more than the other.
        assert sweep.data["results"]["side"]["d_mm"] == pytest.approx(0.3)
        assert sweep.data["results"]["nod"]["d_mm"] == pytest.approx(0.1)
        assert hands.step != "as-found"
        monkeypatch.setattr(powers_off, "FOLDER", tmp_path)
        powers_off.leave_word(tmp_path, time.monotonic_ns())
        faults = until(lambda: hands.running.hub.snapshot(MACHINE).faults)
        assert [fault["code"] for fault in faults] == ["powers-off"]
