"""An addendum: what a named person has to add to an audit that is signed; nothing in it changes."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Final, get_args

from daq.audit.closing_events import Addendum, AddendumKind, ReportAmended
from daq.audit.events import Data
from daq.audit.history import AddedSince
from daq.audit.input import Input, Refused
from daq.audit.state import Closed, Shop
from daq.audit.views.handed import persons
from daq.audit.views.step import Action, Choice, Field
from daq.settings import quoted
from daq.words import Person, Said, said
from daq.words.trend import AxisTrend, TrendSeries, TrendView

LONGEST: Final = 200
"""So many characters it may have: it stands on the wall, too."""


@dataclass(frozen=True)
class Add:
    """The payload of `add-to-signed`: the audit's id, what kind of thing is added, and the text."""

    audit: str
    kind: AddendumKind
    text: str
    done_by: str


def add(shop: Shop, given: Input) -> tuple[Data, ...]:
    """The addendum. Any signed audit of this machine may have some: every check, and practice.

    Raises:
        Refused: the audit is not this machine's or not signed, or text or name do not do.
    """
    sheet = given.payload(Add)
    text = " ".join(sheet.text.split())
    if not given.signed:
        machine = given.command.machine
        raise Refused("addendum-not-signed", found=quoted(sheet.audit), machine=machine)
    if not text or len(text) > LONGEST:
        raise Refused("addendum-text", found=len(text), most=LONGEST)
    if not sheet.done_by.strip():
        raise Refused("addendum-by-nobody")
    return (Addendum(sheet.audit, given.signed, sheet.kind, text, sheet.done_by),)


def audit_of(data: Data, otherwise: str) -> str:
    """The audit that an event's row belongs to: what comes after a signature names its own."""
    return data.of if isinstance(data, Addendum | ReportAmended) else otherwise


def in_words(later: AddedSince) -> tuple[Said, ...]:
    """A sentence for each that is shown, the latest first, and how many came before them."""
    rows = tuple(
        said(
            "addendum",
            kind=row.what.kind,
            day=row.day,
            sure="yes" if row.utc_trusted else "no",
            by=Person(row.what.done_by),
            text=row.what.text,
        )
        for row in reversed(later.latest)
    )
    more = later.count - len(rows)
    return (*rows, said("addenda-before", more=more)) if more else rows


def newest(later: AddedSince) -> tuple[Said, ...]:
    """The latest alone, and how many came before it: for a screen with little room."""
    return in_words(AddedSince(later.count, later.latest[-1:]))


def beside(view: TrendView, later: Mapping[str, AddedSince]) -> TrendView:
    """The trend with what was added to an audit beside each of its points."""

    def noted(series: TrendSeries) -> TrendSeries:
        points = (
            replace(each, addenda=in_words(later.get(each.audit, AddedSince())))
            for each in series.points
        )
        return replace(series, points=tuple(points))

    def of_axis(axis: AxisTrend) -> AxisTrend:
        return replace(
            axis,
            as_found=noted(axis.as_found),
            as_left=noted(axis.as_left),
            tightening=noted(axis.tightening),
        )

    return replace(view, axes=view.axes.map(of_axis))


def button(last: Closed, people: Iterable[str], under: Said | None) -> Action:
    """The one that adds to the audit signed last, under this heading; `people` are known here."""
    kinds = tuple(Choice(key, said("addendum-kind", kind=key)) for key in get_args(AddendumKind))
    fields = (
        Field("kind", said("addendum-what"), "choice", choices=kinds),
        Field("text", said("addendum-says", most=LONGEST)),
        Field("done_by", said("added-by"), suggests=persons(people)),
    )
    say = said("add-to-signed", audit=last.short)
    return Action("add-to-signed", say, {"audit": last.id}, fields=fields, under=under)
