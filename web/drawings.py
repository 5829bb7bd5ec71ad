"""The pictures on an audit's own page, and the way to all others of it."""

from dataclasses import dataclass

from flask import url_for

from daq.plots.picture import Picture
from daq.records.record import AuditRecord, AuditRow
from daq.report.pictures import has_picture, named, of_sweep
from web.rooms import rooms


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
