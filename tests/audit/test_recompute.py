"""How two decisions differ is said field by field: nothing is left out, nothing made up."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from daq.audit.recompute import MOST, Nothing, _fields, differences

LEAVES = st.none() | st.booleans() | st.integers(-3, 3) | st.text("ab", max_size=2)
VALUES = st.recursive(
    LEAVES,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from("xyz"), inner),
    max_leaves=8,
)


@given(VALUES, VALUES)
def test_fields_differ_where_values_do_and_nowhere_else(recorded, now):
    found = list(_fields(1, "T", recorded, now))
    assert bool(found) == (recorded != now)
    assert all(change.recorded != change.now for change in found)
    paths = [change.path for change in found]
    assert len(set(paths)) == len(paths)


def test_another_event_in_its_place_one_more_and_one_less_are_named(bench):
    b = bench().start()
    b.take("right", 1.0)
    events = list(b.events)
    last = events[-1]
    events[-1] = replace(
        last, type="TouchWanted", data={"resume": {"step": "a"}, "next": {"step": "b"}}
    )
    (found,) = differences(events, b.chunks.__getitem__)
    assert [(c.path, c.recorded, c.now) for c in found.changes] == [("", "TouchWanted", last.type)]
    more = replace(last, seq=last.seq + 1)
    (found,) = differences([*b.events, more], b.chunks.__getitem__)
    assert [(c.seq, c.recorded, c.now) for c in found.changes] == [(more.seq, last.type, Nothing)]


def doubled(value):
    """Every number in it twice as large."""
    if isinstance(value, dict):
        return {key: doubled(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [doubled(inner) for inner in value]
    return 2 * value if isinstance(value, float) else value


def test_so_many_fields_are_named_and_of_the_others_how_many(bench):
    b = bench().start()
    for spot in ("right", "front", "left", "back", "right"):
        b.take(spot, 1.25)
    events = list(b.events)
    at = next(i for i, event in enumerate(events) if event.type == "SweepDone")
    events[at] = replace(events[at], data=doubled(events[at].data))
    (found,) = differences(events, b.chunks.__getitem__)
    assert len(found.changes) == MOST and found.more > 0
    assert {change.path.split(".")[0] for change in found.changes} == {"SweepDone"}
    every = list(_fields(1, "SweepDone", events[at].data, b.events[at].data))
    assert [c.path for c in every[:MOST]] == [c.path for c in found.changes]
    assert len(every) == MOST + found.more
