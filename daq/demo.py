"""The wiring of the demo: the service, with a practice mill and the hands that work it."""

import shutil
import threading
import time
import uuid
import webbrowser
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from daq.app import Say, Service, serve_pages, service, spoken
from daq.says import language
from daq.service.cap import Cap
from daq.service.files import ShopFiles, load, shipped
from daq.virtual.hands import Hands
from daq.virtual.mill import VirtualMill
from daq.virtual.panel import PRACTICE_MACHINE, Panel
from daq.virtual.spec import MillSpec
from daq.words import Ack, Command, Passed, Position


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
    cap = Cap(data)
    cap.begin_anew()
    mill.start()
    try:
        with service(shop, data) as running:
            running.inbox.refusal = cap.refusal
            person = _hands(running, mill)
            if hands:
                person.start()
            try:
                page = f"machines/{PRACTICE_MACHINE}/{'wall' if hands else 'bench'}"
                tell = _opening(page, say) if browser else say
                return serve_pages(running, says, "127.0.0.1", port, Panel(mill), None, tell)
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

    def post(kind: str, payload: Mapping[str, Any]) -> Ack:
        seq = running.hub.snapshot(PRACTICE_MACHINE).seq
        command = Command(
            str(uuid.uuid4()), PRACTICE_MACHINE, kind, payload, "practice hands", None, seq
        )
        return running.inbox.submit(command)

    mill.collar = passed
    return Hands(snapshot, post, lambda: running.hub.live(PRACTICE_MACHINE), mill)
