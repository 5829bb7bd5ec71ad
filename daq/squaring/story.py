"""What has happened on a head since its first sweep: what was read, and what was done to it.

The story is what the head's answer is learned from. It is kept in order; values are
`pushed_in`, mm, in the gauge's zero of their moment.
"""

from dataclasses import dataclass, replace
from itertools import takewhile
from typing import Literal

from daq.words import Axis, Position

What = Literal["moved", "rested", "tightened", "zeroed", "unknown"]


@dataclass(frozen=True, slots=True)
class Seen:
    """A reading at a position, mm.

    `stays`: the gauge had not left the place since the reading before, so that how its
    contact landed there is the same. `more_mm`: what it is in doubt of beyond one reading's
    scatter, standard uncertainty, where it was not read standing still.
    """

    position: Position
    pushed_mm: float
    stays: bool = False
    more_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Happened:
    """Something that changed what the gauge reads.

    "moved": the adjuster of `axis` was turned, bolts cracked before included. "rested": the
    hands left it; `way`: which way its lean was turned last, 1 with the right or the front going
    down, -1 with them rising, 0 where nobody knows, `creeps`: how far it may still go, slope,
    one standard deviation, beside what heads do. "tightened": its bolts were pulled up.
    "zeroed": only the gauge's zero changed. "unknown": anything may have: a knock, the wrong
    adjuster, a gauge that was away.
    """

    what: What
    axis: Axis | None = None
    way: int = 0
    creeps: float = 0.0


Story = tuple[Seen | Happened, ...]


def then(story: Story, *more: Seen | Happened) -> Story:
    """The story with more that happened; nothing that came before the first reading matters."""
    return (*story, *more) if story else ()


def last_seen(story: Story) -> Seen | None:
    """The latest reading, which tells where the gauge stands; None before the first."""
    return next((entry for entry in reversed(story) if isinstance(entry, Seen)), None)


def turns_read(story: Story, axis: Axis) -> int:
    """How many turns of an axis were read, the gauge swung, before anything unknown happened."""
    count, turned = 0, False
    for entry in story:
        if isinstance(entry, Seen):
            count += turned and not entry.stays
            turned = turned and entry.stays
        else:
            turned = (turned or (entry.what, entry.axis) == ("moved", axis)) and (
                entry.what != "unknown"
            )
    return count


def unread_turns(story: Story) -> dict[Axis, int]:
    """Each axis that was turned since the gauge was last swung and read, with where that began."""
    began: dict[Axis, int] = {}
    for at, entry in enumerate(story):
        if isinstance(entry, Seen):
            began = began if entry.stays else {}
        elif entry.what == "moved" and entry.axis is not None:
            began.setdefault(entry.axis, at)
    return began


def last_worked(story: Story) -> Axis | None:
    """The axis whose adjuster or bolts were touched last; None before any, or not known."""
    done = (e for e in reversed(story) if isinstance(e, Happened) and e.what != "zeroed")
    return next((entry.axis for entry in done), None)


def ways_left(story: Story) -> list[int]:
    """Of everything that happened, which way its axis was turned last and may still go back.

    0 where nobody knows, or where its bolts were pulled up since.
    """
    ways: dict[Axis | None, int] = {}
    found = []
    for entry in story:
        if isinstance(entry, Happened):
            if entry.what in ("rested", "unknown"):
                ways = {} if entry.what == "unknown" else {**ways, entry.axis: entry.way}
            found.append(ways.get(entry.axis, 0))
            if entry.what == "tightened":
                ways.pop(entry.axis, None)
    return found


def way_left(story: Story, axis: Axis) -> int:
    """Which way an axis was turned last that was not tightened since; 0 where nobody knows."""
    return ways_left((*story, Happened("tightened", axis)))[-1]


def stood(story: Story, seen: Seen) -> Story:
    """The story with a reading where the gauge stands parked; it may stand there already."""
    last = last_seen(story)
    stays = last is not None and last.position == seen.position and not _swung(story)
    return (*story, replace(seen, stays=stays))


def _swung(story: Story) -> bool:
    """Whether something since the last reading may have made the contact land anew."""
    since = takewhile(lambda entry: isinstance(entry, Happened), reversed(story))
    return any(isinstance(entry, Happened) and entry.what == "unknown" for entry in since)


def distrusted(story: Story) -> Story:
    """The story with everything since the last reading before the latest move unknown.

    What was read stays; what was done in between teaches nothing any more.
    """
    since = max((i for i, entry in enumerate(story) if _breaks(entry)), default=None)
    if since is None:
        return (*story, Happened("unknown"))
    if not _is_move(story[since]):
        # What came before it is not trusted already: only the latest readings stand apart.
        last = max(i for i, entry in enumerate(story) if isinstance(entry, Happened))
        return (*story[: last + 1], Happened("unknown"), *story[last + 1 :])
    # The reading at the stop was taken before or after whatever happened: it says nothing.
    after = [entry for entry in story[since:] if isinstance(entry, Seen)]
    kept = after[1:] if after and after[0].stays else after
    return (*story[:since], Happened("unknown"), *kept)


def is_read(story: Story) -> bool:
    """Whether the gauge was swung and read since anything was done to the head."""
    since = takewhile(lambda entry: isinstance(entry, Seen), reversed(story))
    return any(isinstance(entry, Seen) and not entry.stays for entry in since)


def split(story: Story, readings: int) -> tuple[Story, Story]:
    """Return the story before its latest so many readings, and from the first of them on."""
    seen = [i for i, entry in enumerate(story) if isinstance(entry, Seen)]
    at = seen[-readings] if readings else len(story)
    return story[:at], story[at:]


def cut_off(story: Story, readings: int) -> Story:
    """The story with its latest readings apart from all before: anything came in between."""
    before, since = split(story, readings)
    return (*before, Happened("unknown"), *since)


def unread(story: Story, readings: int) -> Story:
    """The story as if its latest readings had not been taken."""
    before, since = split(story, readings)
    return (*before, *(entry for entry in since if isinstance(entry, Happened)))


def is_doubted(story: Story) -> bool:
    """Whether something in the story did not fit before."""
    return any(isinstance(entry, Happened) and entry.what == "unknown" for entry in story)


def disowned(story: Story) -> Story:
    """The story with every move unknown: what was believed of them proved wrong."""
    return tuple(
        Happened("unknown") if isinstance(e, Happened) and e.what in ("moved", "rested") else e
        for e in story
    )


def _breaks(entry: Seen | Happened) -> bool:
    return _is_move(entry) or (isinstance(entry, Happened) and entry.what == "unknown")


def _is_move(entry: Seen | Happened) -> bool:
    return isinstance(entry, Happened) and entry.what == "moved"
