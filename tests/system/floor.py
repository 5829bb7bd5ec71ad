"""A shop with several machines, each with a gauge of its own, and a screen at each of them."""

from collections.abc import Mapping

from daq.audit.evidence import decode
from daq.ledger import LedgerView
from daq.words import Sample
from tests.system.client import Answer, Client
from tests.system.shop import MACHINE, Shop

PAPERS = """
name = "{name}"
serial_number = "{name}"
kind = "plunger"
counts_up = true
resolution = "{resolution}"
travel = "12.7 mm"
max_error = "0.004 mm"
calibration_due = 2028-03-31
"""


def papers(name: str, resolution: str = "0.001 mm") -> str:
    """The top of a gauge's file, up to its line."""
    return PAPERS.format(name=name, resolution=resolution)


def furnish(shop: Shop, gauges: Mapping[str, str]) -> None:
    """Let these gauges' files be all there are, each on a machine of the gauge's name."""
    machine = (shop.config / "machines" / f"{MACHINE}.toml").read_text(encoding="utf-8")
    for folder in ("machines", "gauges"):
        for path in (shop.config / folder).glob("*.toml"):
            path.unlink()
    for key, text in gauges.items():
        (shop.config / "gauges" / f"{key}.toml").write_text(text, encoding="utf-8")
        named = machine.replace('gauge = "practice"', f'gauge = "{key}"')
        (shop.config / "machines" / f"{key}.toml").write_text(named, encoding="utf-8")


class Screen(Client):
    """A client at one of several machines."""

    def __init__(self, other: Client, machine: str) -> None:
        super().__init__()
        self.port, self.data, self.headers = other.port, other.data, other.headers
        self.machine = machine

    def ask(self, method: str, path: str, body: object = None) -> Answer:
        return super().ask(method, path.replace(MACHINE, self.machine), body)


def recorded(shop: Shop, machine: str, kind: str = "") -> list[Sample]:
    """The samples behind a machine's events, of one type or of all, each chunk once."""
    with LedgerView.open(shop.data) as view:
        events = [e for e in view.events() if e.machine == machine and kind in ("", e.type)]
        digests = dict.fromkeys(digest for event in events for digest in event.evidence)
        return [sample for digest in digests for sample in decode(view.chunk(digest))]
