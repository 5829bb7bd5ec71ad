"""A measurement that was stopped goes on where it was, and ends as one that was not."""

import pytest

from tests.benchmarks.heads import measure as measuring
from tests.benchmarks.heads.cells import BY_KEY
from tests.benchmarks.heads.kept import Asked, Kept, Result, digest
from tests.benchmarks.heads.shown import Part, shown

GOOD = [Part([BY_KEY["good-10"]], 3)]
ASKED = Asked("cell", "series", "console", 1, 5, 2)


@pytest.fixture
def heads_done(monkeypatch):
    """Which heads were measured; at the number in `stops` somebody stops it."""
    done, stops, real = [], [], measuring._audited

    def counted(series, count, seed, number):
        if number in stops:
            raise KeyboardInterrupt
        done.append(number)
        return real(series, count, seed, number)

    monkeypatch.setattr(measuring, "_audited", counted)
    return done, stops


def test_stopped_and_gone_on_with_it_ends_as_one_run(tmp_path, heads_done):
    done, stops = heads_done
    whole = list(shown(GOOD, 1, Kept(None, "code")))
    assert done == [0, 1, 2]
    path = tmp_path / "kept.jsonl"
    stops.append(2)
    with pytest.raises(KeyboardInterrupt):
        list(shown(GOOD, 1, Kept(path, "code")))
    # The power went while the second head was written down.
    path.write_text(path.read_text(encoding="utf-8")[:-40], encoding="utf-8")
    done.clear()
    stops.clear()
    assert list(shown(GOOD, 1, Kept(path, "code"))) == whole
    assert done == [1, 2]
    done.clear()
    assert list(shown(GOOD, 1, Kept(path, "code"))) == whole
    assert done == []
    assert list(shown(GOOD, 1, Kept(path, "another code", only=True))) == []
    (known,) = shown(GOOD, 1, Kept(path, "code", only=True))
    assert known == whole[0]


def test_what_is_known_is_of_so_many_audits_or_more():
    kept = Kept(None, "code")
    assert kept.of(ASKED) is None
    took = [
        {"presses": 40, "pressed_ms": 100.0, "slowest_ms": 20.0},
        {"presses": 10, "pressed_ms": 50.0, "slowest_ms": 30.0},
    ]
    kept.keep(ASKED, Result(took, 0.5))
    assert kept.of(ASKED) == took
    assert kept.of(Asked("other cell of it", "series", "console", 1, 5, 1)) == took
    assert kept.of(Asked("cell", "series", "console", 1, 5, 3)) is None
    assert kept.of(Asked("cell", "series", "halving 0", 1, 5, 1)) is None
    assert (kept.heads, kept.cpu_s, kept.press_ms) == (1, 0.5, (3.0, 30.0))


def test_the_digest_is_that_of_the_code():
    assert digest() == digest()
    assert len(digest()) == 12
