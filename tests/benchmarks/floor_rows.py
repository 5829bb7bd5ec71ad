"""Row 19: the processor's time that four gauges and eight screens take, beside bare loops.

Service and bare loops run at the same time, each at gauges that send 20 numbers a second.
"""

import re
import select
import shutil
import sys
import time
from contextlib import ExitStack, closing
from pathlib import Path

from daemon import CONFIG, STREAM, Wire, running, screen, service

GAUGES, SCREENS_EACH, RATE_HZ = 4, 2, 20
WARM_S = 1.0

Row = tuple[str, float, float, float]


def measure(folder: Path, seconds: float) -> list[Row]:
    """Return (label, own seconds, anchor seconds, reach), of the processor in each second."""
    with ExitStack() as opened:
        wires = [opened.enter_context(closing(Wire(folder / f"tty{n}"))) for n in range(GAUGES)]
        bare_wires = [opened.enter_context(closing(Wire())) for _ in range(GAUGES)]
        own = opened.enter_context(running(service(folder / "data", _shop(folder))))
        program, each = Path(__file__).with_name("bare.py"), str(SCREENS_EACH)
        bare = [
            opened.enter_context(running([sys.executable, str(program), wire.name, each]))
            for wire in bare_wires
        ]
        seats = [
            opened.enter_context(closing(screen(of, stream)))
            for n in range(GAUGES)
            for _ in range(SCREENS_EACH)
            for of, stream in ((own, STREAM.replace("practice-mill", f"mill-{n}")), (bare[n], "/"))
        ]
        before: list[float] = []
        begun_s = time.monotonic()
        for turn in range(round((WARM_S + seconds) * RATE_HZ)):
            if turn == round(WARM_S * RATE_HZ):
                before = [_busy_s(own.pid), sum(_busy_s(each.pid) for each in bare)]
                begun_s = time.monotonic()
            for wire in (*wires, *bare_wires):
                wire.send(turn % 1000)
            next_s = time.monotonic() + 1.0 / RATE_HZ
            while (left_s := next_s - time.monotonic()) > 0:
                for seat in select.select(seats, [], [], left_s)[0]:
                    seat.recv(65536)
        after = [_busy_s(own.pid), sum(_busy_s(each.pid) for each in bare)]
        passed_s = time.monotonic() - begun_s
        each_s = [(last - first) / passed_s for first, last in zip(before, after, strict=True)]
    return [("processor a second, 4 gauges, 8 screens / bare loops", *each_s, 7.0)]


def _shop(folder: Path) -> Path:
    """The shipped configuration with a machine for each gauge."""
    made = folder / "config"
    shutil.copytree(CONFIG, made)
    for kind, shipped in (("gauges", "practice"), ("machines", "practice-mill")):
        text = (made / kind / f"{shipped}.toml").read_text(encoding="utf-8")
        (made / kind / f"{shipped}.toml").unlink()
        for n in range(GAUGES):
            one = re.sub(r"(?m)^gauge = .*$", f'gauge = "gauge-{n}"', text)
            one = re.sub(r"(?m)^port = .*$", f'port = "{folder}/tty{n}"', one)
            name = "gauge" if kind == "gauges" else "mill"
            (made / kind / f"{name}-{n}.toml").write_text(one, encoding="utf-8")
    return made


def _busy_s(pid: int) -> float:
    """The processor's time that a process has had, by the scheduler's own account (proc(5))."""
    threads = Path(f"/proc/{pid}/task").glob("*/schedstat")
    return sum(int(each.read_text(encoding="ascii").split()[0]) for each in threads) / 1e9
