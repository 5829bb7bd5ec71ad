"""How likely "in" is said to be after one more move agrees with what exact heads then read."""

from tests.benchmarks.heads.foretold import compared, foretold
from tests.benchmarks.heads.shop import Files

HEADS = 8


def test_in_comes_as_often_after_one_more_move_as_was_said_as_found():
    """First audits and the ones after them: unlikely ones and near certain ones."""
    found = foretold(Files(0.010, "guarded"), HEADS, 2, seed=1)
    said, came, error = compared(found)
    assert len(found) > 3 * HEADS
    assert min(likely for likely, _ in found) < 0.3 < 0.9 < max(likely for likely, _ in found)
    assert abs(said - came) < 2.0 * error
