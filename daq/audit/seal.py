"""The fold written down, so that a start need not begin at the first row, and read again.

Audits still open are left out: each comes back from its own rows, which are few. Written down,
an open audit would take far more than those: every step that can be undone holds the audit as
it was before it.
"""

import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import takewhile

from daq.audit.apply import fold
from daq.audit.state import MachineState, Shop
from daq.settings import SettingsError, build, plain
from daq.words import Event


class Unsealed(ValueError):
    """What was written down does not give the state it should; the text says why."""


@dataclass(frozen=True)
class Sealed:
    """A shop's state after some row: every machine without its open audit, and which that is."""

    shop: Shop
    open: Mapping[str, str]


def sealed(shop: Shop) -> Sealed:
    """What of a state is written down."""
    machines = {key: replace(state, job=None) for key, state in shop.machines.items()}
    jobs = {key: state.job.id for key, state in shop.machines.items() if state.job is not None}
    return Sealed(replace(shop, machines=machines), jobs)


def encode(what: Sealed) -> str:
    """The text of it: one line of JSON."""
    return json.dumps(plain(what), allow_nan=False, sort_keys=True, separators=(",", ":"))


def decode(text: str) -> Sealed:
    """The state a text holds, whatever limits hold today.

    Raises:
        Unsealed: it is no state of this release.
    """
    try:
        table = json.loads(text)
        return build(Sealed, table, "state", quantities="plain", limits=False)
    except (SettingsError, ValueError, RecursionError) as error:
        raise Unsealed(f"the state in it cannot be read ({error!s:.200})") from error


def restored(what: Sealed, seq: int, rows: Callable[[str], Iterable[Event]]) -> Shop:
    """The whole state after row `seq`; `rows` gives an audit's events, in order.

    Raises:
        Unsealed: an open audit's rows do not lead to where its machine stood.
    """
    shop = what.shop
    for machine, audit in what.open.items():
        shop = fold(takewhile(lambda event: event.seq <= seq, rows(audit)), shop)
        if not _as_sealed(shop.machine(machine), what.shop.machine(machine), audit):
            raise Unsealed(f"its audit {audit} on {machine} is not found again")
    return shop


def _as_sealed(found: MachineState, wanted: MachineState, audit: str) -> bool:
    is_open = found.job is not None and found.job.id == audit
    return is_open and replace(found, job=None) == wanted
