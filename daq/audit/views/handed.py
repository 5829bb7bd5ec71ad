"""Through whose hands an audit went, in words."""

from collections.abc import Iterable

from daq.audit.closing_events import Handed
from daq.words import Person, Said, said


def in_words(rows: Iterable[Handed]) -> tuple[Said, ...]:
    """A sentence for each, in their order."""
    return tuple(
        said(
            "handed-over",
            left=Person(row.what.left_by),
            taken=Person(row.what.taken_by),
            day=row.day,
            time=row.time,
            sure="yes" if row.utc_trusted else "no",
        )
        for row in rows
    )


def persons(ids: Iterable[str]) -> tuple[Person, ...]:
    """Those of these ids, to choose from."""
    return tuple(Person(each) for each in ids)


def in_hand(rows: tuple[Handed, ...]) -> Said | None:
    """Whose hands it is in now, and whose it was in before; None while nobody handed it over."""
    if not rows:
        return None
    last = rows[-1].what
    return said("in-hand-of", taken=Person(last.taken_by), left=Person(last.left_by))
