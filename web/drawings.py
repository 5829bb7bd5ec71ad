"""The pictures that several pages show: a machine's, and those on an audit's own page."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Final

from flask import url_for

from daq.plots.picture import Picture
from daq.records.record import AuditRecord, AuditRow
from daq.report.pictures import has_picture, named, of_sweep
from daq.report.run_pictures import of_trend
from daq.words.trend import TrendView
from web.rooms import rooms

SHOWN: Final = 100
"""As many of the latest audits as are kept: no page waits for the disk."""
DRAWN: Final = 32
"""So many of them are drawn beside other things; each picture's own page has more."""
RUNS: Final = ("run-side", "run-nod")


def of_machine(view: TrendView, most: int, linked: Collection[str]) -> Mapping[str, Picture]:
    """A machine's pictures of so many audits at most; the points of some lead to their audits."""
    shared = rooms()

    def link(audit: str) -> str:
        return url_for("record.record", audit=audit)

    return of_trend(view, shared.says, shared.hub.people, most, link, linked)


def runs(machine: str) -> Mapping[str, Picture]:
    """How it was found and left, axis by axis; none where nothing knows the trends."""
    trends = rooms().trends
    if trends is None:
        return {}
    pictures = of_machine(trends.of(machine, SHOWN), DRAWN, RUNS)
    return {key: pictures[key] for key in RUNS}


@dataclass(frozen=True)
class RowLink:
    """Where a row's pictures are, and what they are called."""

    seq: int
    href: str
    say: str


@dataclass(frozen=True)
class OnPage:
    """What an audit's own page shows: the latest sweep that stands, and the way to all others.

    `first`: where the first reading's samples are, from which one page leads to the next.
    """

    latest: Picture | None
    rows: tuple[RowLink, ...]
    first: str | None


def on_page(found: AuditRecord) -> OnPage:
    """The pictures of an audit's own page; reads no sample."""
    shared = rooms()
    given = (shared.says, shared.hub.people)

    def way(row: AuditRow) -> str:
        return url_for("drawn.drawn", audit=found.audit, row=row.seq)

    stands = [row for row, _ in found.sweeps if row.voided_by is None]
    first = next((row for row in found.rows if has_picture(found, row)), None)
    return OnPage(
        of_sweep(found, stands[-1], *given) if stands else None,
        tuple(RowLink(row.seq, way(row), say) for row, say in named(found, *given)),
        None if first is None else way(first),
    )
