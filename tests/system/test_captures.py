"""Every capture, sent into real ports of one daemon, is in its ledger as its golden file says."""

import termios
import threading
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, contextmanager

import pytest

from daq.units import MM_PER
from tests.cards import READY
from tests.gauges.captures import captured
from tests.gauges.conftest import FarEnd
from tests.patience import until
from tests.system.floor import Screen, furnish, recorded

NAMES = captured.names()
REPEATS = 6
LONGEST_END = 4
SILENCE_S = 1.0
"""More than four times what parts two frames."""
PERIOD_S = 0.02
INPUT = 0


@pytest.fixture
def shop(shop):
    """A machine for each capture, with the capture's own file as its gauge's."""
    texts = {name: (captured.FOLDER / f"{name}.toml").read_text(encoding="utf-8") for name in NAMES}
    furnish(shop, texts)
    shop.set("shop.toml", "timeout_s", "15")  # four frames that pauses part take four seconds
    return shop


@pytest.fixture
def cables(shop):
    """The far end of each gauge's port, where its file has it."""
    with ExitStack() as plugged:
        made = {}
        for name in NAMES:
            path = shop.data / captured.load(name).config.line.port
            path.parent.mkdir(parents=True, exist_ok=True)
            made[name] = FarEnd(path)
            made[name].plug()
            plugged.callback(made[name].unplug)
        yield made


def by_pauses(capture):
    return capture.config.frame.get("apart") == "pause"


def a_frame(capture):
    """A frame of the capture with what closes it, such that it can be sent over and over."""
    raw = bytes.fromhex(capture.golden()[0][0]["raw"])
    piece = next(piece for piece in capture.pieces if raw in piece)
    first, end = piece.index(raw), piece.index(raw) + len(raw)
    for closed in range(end, end + LONGEST_END + 1):
        frames = [piece[first:closed]] * REPEATS
        pieces = [*frames, b""] if by_pauses(capture) else [b"".join(frames)]
        found = list(captured.replay(capture.decoder(), pieces, len(pieces[0])))
        if len(found) >= REPEATS - 1:
            return frames[0]
    raise AssertionError(f"{capture.path.name}: its first frame cannot be sent twice")


@contextmanager
def sent_over_and_over(cable: FarEnd, frame: bytes, period_s: float) -> Iterator[None]:
    enough = threading.Event()

    def send() -> None:
        while not enough.wait(period_s):
            cable.send(frame)

    sender = threading.Thread(target=send)
    sender.start()
    try:
        yield
    finally:
        enough.set()
        sender.join()


def told(samples):
    return [(s.text, s.unit, s.value_mm, s.flags, s.raw.hex()) for s in samples]


def opened(cable):
    """Wait until the port is set up as only a gauge's reader does it, and that last of all."""
    until(lambda: termios.tcgetattr(cable.slave)[INPUT] & termios.INPCK)


def played(screen, cable, capture):
    """An audit up to its touch test, where every sample counts; then the cable is out and in,
    and the capture comes as the first on it, before a number that stands still. Return the
    openings before.
    """
    screen.do("open", {"reason": "scheduled"})
    screen.do("readied", READY)
    screen.do("warmed", {"warm": True})
    screen.do("prepared", {"serial_number": capture.config.serial_number})
    period_s = SILENCE_S if by_pauses(capture) else PERIOD_S
    with sent_over_and_over(cable, a_frame(capture), period_s):
        screen.do("take")
    before = screen.live().run
    cable.unplug()
    screen.until(lambda snapshot: "unplugged" in [f["code"] for f in snapshot["faults"]])
    cable.plug()
    opened(cable)
    for piece in capture.pieces:
        cable.send(piece)
        time.sleep(SILENCE_S)
    golden, _ = capture.golden()
    screen.until_live(lambda live: live.run != before and live.n >= len(golden) - 1)
    with sent_over_and_over(cable, a_frame(capture), period_s):
        screen.do("pushed")
    return before


def test_every_capture_at_once(cables, daemon, shop):
    captures = {name: captured.load(name) for name in NAMES}
    screens = [Screen(daemon.client, name) for name in NAMES]
    with ThreadPoolExecutor(len(NAMES)) as machines:
        before = list(machines.map(played, screens, cables.values(), captures.values()))
    for (name, capture), run in zip(captures.items(), before, strict=True):
        samples = [s for s in recorded(shop, name, "Pushed") if s.run != run]
        golden, _ = capture.golden()
        assert told(samples)[: len(golden)] == [
            (g["text"], g["unit"], g["value"] * MM_PER[g["unit"]], tuple(g["flags"]), g["raw"])
            for g in golden
        ], name
        assert [s.n for s in samples] == list(range(len(samples)))
        assert {s.gauge for s in samples} == {name}
        assert len({s.run for s in samples}) == 1
