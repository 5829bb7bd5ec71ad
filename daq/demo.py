"""The wiring of the demo: the service, with a practice mill and the hands that work it."""

import shutil
import threading
import time
import uuid
import webbrowser
from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

from daq.app import Say, Service, serve_pages, service, spoken
from daq.audit.setup import AxisSetup
from daq.says import Language, language
from daq.service.cap import Cap
from daq.service.committed import Committed
from daq.service.files import ShopFiles, load, shipped
from daq.service.takes import HOLD_STILL
from daq.virtual.hands import Hands
from daq.virtual.mill import VirtualMill
from daq.virtual.panel import PRACTICE_MACHINE, Panel
from daq.virtual.score import Bound
from daq.virtual.spec import MillSpec
from daq.virtual.tutor import Tutor
from daq.words import AXES, Ack, Axis, Command, Passed, Position, said


def demo(
    data: Path, port: int, say: Say, *, browser: bool, speed: float, hands: bool, seed: int | None
) -> int:
    """`headsweep demo`: the same service, with the practice mill on a pseudo-terminal."""
    config = data / "config"
    if not config.exists():
        shutil.copytree(shipped(), config)
    shop = _hurried(load(config), speed)
    says = spoken(shop, config)
    mill = VirtualMill(
        MillSpec(),
        tty_link=data / "ttys" / "practice",
        state_file=data / "practice-mill.json",
        speed=speed,
        seed=uuid.uuid4().int % 2**32 if seed is None else seed,
    )
    tutor = Tutor(mill, _bounds(shop), data / "practice-class.json")
    cap = Cap(data)
    cap.begin_anew()
    mill.start()
    try:
        with service(shop, data, {"lessons": partial(_rows, tutor)}) as running:
            running.inbox.refusal = cap.refusal
            person = _hands(running, mill)
            _watch(running, tutor, says)
            if hands:
                person.start()
            try:
                page = f"machines/{PRACTICE_MACHINE}/{'wall' if hands else 'bench'}"
                tell = _opening(page, say) if browser else say
                return serve_pages(running, says, "127.0.0.1", port, Panel(mill, tutor), None, tell)
            finally:
                person.stop()
    finally:
        mill.stop()


def _hurried(shop: ShopFiles, speed: float) -> ShopFiles:
    """Settling as much faster as the practice mill is; nobody outside is told of practice."""
    settle = shop.shop.settle
    hurried = replace(
        settle, wait_s=settle.wait_s / speed, window_s=max(0.1, settle.window_s / speed)
    )
    return replace(shop, shop=replace(shop.shop, settle=hurried, mqtt=None))


def _bounds(shop: ShopFiles) -> dict[Axis, Bound]:
    """The practice mill's tolerances, as its file has them."""
    machine = shop.machines.get(PRACTICE_MACHINE)
    if machine is None:  # taken out of the files: no lesson can be reached, nor an audit
        return dict.fromkeys(AXES, Bound(0.025, 300.0))
    axes: dict[Axis, AxisSetup] = {"side": machine.side, "nod": machine.nod}
    return {axis: Bound(of.limit, of.over, of.wanted_lean) for axis, of in axes.items()}


def _rows(tutor: Tutor, what: Committed) -> None:
    for event in what.events:
        if event.machine == PRACTICE_MACHINE:
            tutor.row(event)


def _watch(running: Service, tutor: Tutor, says: Language) -> None:
    """The tutor hears of refusals, and may end an audit or open one: of practice, as it is."""

    def answered(command: Command, ack: Ack) -> None:
        refused = ack.code == "refused" and ack.reason != HOLD_STILL
        if refused and command.machine == PRACTICE_MACHINE:
            tutor.refused(command.kind)

    running.inbox.answered = answered
    wishes = {
        "abandon": {"why": says.words(said("lesson-next")), "left": "safe"},
        "open": {"reason": "practice"},
    }
    tutor.press = lambda kind: _press(running, kind, wishes[kind])


def _press(running: Service, kind: str, payload: Mapping[str, Any]) -> Ack:
    seq = running.hub.snapshot(PRACTICE_MACHINE).seq
    actor = "practice hands"
    command = Command(str(uuid.uuid4()), PRACTICE_MACHINE, kind, payload, actor, None, seq)
    return running.inbox.submit(command)


def _opening(page: str, say: Say) -> Say:
    """Tell the address, and open its page in the person's browser."""

    def tell(address: str) -> None:
        say(address)
        threading.Thread(target=webbrowser.open, args=(address + page,), daemon=True).start()

    return tell


def _hands(running: Service, mill: VirtualMill) -> Hands:
    def passed(place: Position, closed: bool) -> None:
        edge = Passed(place, closed, time.monotonic_ns())
        running.collars.note(PRACTICE_MACHINE, edge)

    def snapshot() -> Mapping[str, Any]:
        return {"pages": language().told(running.hub.snapshot(PRACTICE_MACHINE).pages)}

    mill.collar = passed
    live = partial(running.hub.live, PRACTICE_MACHINE)
    return Hands(snapshot, partial(_press, running), live, mill)
