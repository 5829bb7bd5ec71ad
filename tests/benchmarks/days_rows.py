"""Days of a shop in minutes: what the real service's memory, descriptors, threads and log do.

    PYTHONPATH=. python tests/benchmarks/days_rows.py [--days 3] [--gauges 8]

A day here is, at each of the gauges' machines, one audit from opening to signature by hands that
obey the console, one opened and abandoned, and its cable pulled and put back three times; beside
them screens that come and go all the time, and at the end of the day a clock that is stepped. What
is not so: the gauges' hours. They send a hundred numbers a second for as long as that lasts, and a
takes' window is shortened as in the tests. The first days fill the rings and are not counted.
"""

import argparse
import random
import sys
import tempfile
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, closing, contextmanager
from pathlib import Path
from statistics import linear_regression

from daq.gauges.ring import CAPACITY
from daq.virtual import Hand, Machinist
from daq.words import Sample
from tests.audit.rigid import RigidHead, mill
from tests.system.client import Answer, Client, PatientClient
from tests.system.daemon import Daemon
from tests.system.person import Person
from tests.system.shop import MACHINE, Shop
from tests.system.ttygauge import TtyGauge

PULLS = 3
STEPS_S = (0, 3600, -14 * 86400, 40 * 86400, -86400)
"""How far off the wall clock is, day after day."""
FULL_S = 1.5 * CAPACITY / 100
"""So long the rings take to fill, on a busy machine, too."""
MB = 1e6

STEPPED = """
import sys, time
from pathlib import Path
from types import SimpleNamespace
from daq.cli import main
from daq.service import clock

off = Path(sys.argv.pop(1))

def stepped():
    return time.time_ns() + int(float(off.read_text() or 0) * 1e9)

clock.time = SimpleNamespace(monotonic_ns=time.monotonic_ns, time_ns=stepped)
sys.exit(main())
"""


class At(PatientClient):
    """A client at one of several machines."""

    def __init__(self, machine: str) -> None:
        super().__init__()
        self._machine = machine

    def ask(self, method: str, path: str, body: object = None) -> Answer:
        return super().ask(method, path.replace(MACHINE, self._machine), body)


class Hands(Person):
    """Whoever works one of the machines: its gauge has a number of its own."""

    def __init__(self, client: Client, gauge: TtyGauge, number: str) -> None:
        super().__init__(client, gauge, RigidHead(mill(), 0.1, -0.1))
        self._number = number

    def number(self) -> str:
        return self._number


class Place:
    """One machine of the shop, whoever works it, and the gauge on its cable."""

    def __init__(self, shop: Shop, n: int) -> None:
        self.key = f"mill-{n}"
        tty = shop.config.with_name(f"gauge-{n}")
        machine = (shop.config / "machines/practice-mill.toml").read_text(encoding="utf-8")
        gauge = (shop.config / "gauges/practice.toml").read_text(encoding="utf-8")
        named = machine.replace('gauge = "practice"', f'gauge = "g{n}"')
        wired = gauge.replace(f'"{shop.tty}"', f'"{tty}"').replace("P-0417", f"P-{n}")
        (shop.config / f"machines/{self.key}.toml").write_text(named, encoding="utf-8")
        (shop.config / f"gauges/g{n}.toml").write_text(wired, encoding="utf-8")
        self.gauge = TtyGauge(tty)
        self.client = At(self.key)
        self.person = Hands(self.client, self.gauge, f"P-{n}")

    def day(self) -> None:
        """What happens at this machine in a day."""
        Machinist(self.person, Hand("Anybody")).work("signed")
        self.client.do("open", {"reason": "scheduled"})
        self.client.do("abandon", {"why": "called away"})
        for _ in range(PULLS):
            run = self.client.until_live(lambda live: live.fresh).run
            self.gauge.replug()
            self.client.until_live(lambda live, run=run: live.fresh and live.run != run)
        self.person.head.shift("side", 0.06)
        self.person.head.shift("nod", -0.05)


def screens(places: list[Place], ended: threading.Event) -> int:
    """Screens that come, listen for a little and go, until the day ends; how many there were."""
    chance, came = random.Random(1), 0
    while not ended.wait(0.05):
        with chance.choice(places).client.stream() as stream:
            for _ in range(chance.randint(1, 30)):
                stream.readline()
        came += 1
    return came


def held(daemon: Daemon) -> dict[str, float]:
    process = Path(f"/proc/{daemon.pid}")
    lines = (process / "status").read_text(encoding="ascii").splitlines()
    status = dict(line.split(":\t", 1) for line in lines)
    return {
        "resident MB": int(status["VmRSS"].split()[0]) * 1024 / MB,
        "descriptors": len(list((process / "fd").iterdir())),
        "threads": int(status["Threads"]),
        "log bytes": len(daemon.stderr.encode()),
        "ledger MB": (daemon.shop.data / "ledger.db").stat().st_size / MB,
    }


@contextmanager
def running(folder: Path, gauges: int):
    shop = Shop(folder)
    off = folder / "off"
    off.write_text("0", encoding="ascii")
    places = [Place(shop, n) for n in range(gauges)]
    with ExitStack() as opened:
        for place in places:
            opened.enter_context(place.gauge)
        daemon = Daemon(shop, program=(sys.executable, "-c", STEPPED, str(off)))
        opened.enter_context(closing(daemon))
        daemon.start()
        for place in places:
            place.client.port = daemon.client.port
        yield daemon, places, off


def one_day(places: list[Place]) -> int:
    ended = threading.Event()
    with ThreadPoolExecutor(len(places) + 1) as people:
        came = people.submit(screens, places, ended)
        try:
            for done in [people.submit(place.day) for place in places]:
                done.result()
        finally:
            ended.set()
        return came.result()


def sample_bytes() -> int:
    """What one number in a ring takes, with what belongs to it alone."""
    one = Sample("g", "run-1", 10**6, 10**15, "+001.234", "mm", 1.234, (), b"+001.234 mm")
    kept = (one, one.n, one.mono_ns, one.value_mm, one.text, one.raw)
    return sum(map(sys.getsizeof, kept)) + 8  # its place in the list


def main() -> None:
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--days", type=int, default=3)
    options.add_argument("--gauges", type=int, default=8)
    args = options.parse_args()
    ring = sample_bytes() * CAPACITY
    print(
        f"a ring of {CAPACITY} samples: {ring / MB:.1f} MB; all: {args.gauges * ring / MB:.0f} MB"
    )
    with tempfile.TemporaryDirectory() as folder, running(Path(folder), args.gauges) as shop:
        daemon, places, off = shop
        begun, counted, day = time.monotonic(), [], 0
        while len(counted) <= args.days:
            came = one_day(places)
            day += 1
            off.write_text(str(STEPS_S[day % len(STEPS_S)]), encoding="ascii")
            now = held(daemon)
            full = time.monotonic() - begun > FULL_S
            if full:
                counted.append(now["resident MB"])
            figures = ", ".join(f"{what} {figure:.1f}" for what, figure in now.items())
            print(
                f"day {day}{'' if full else ' (rings filling)'}: screens {came}, {figures}, "
                f"{time.monotonic() - begun:.0f} s",
                flush=True,
            )
        slope = linear_regression(range(len(counted)), counted).slope
        print(f"MB a day once the rings are full: {slope:.2f} (to reach: under 1)")


if __name__ == "__main__":
    main()
