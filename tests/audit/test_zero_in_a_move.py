"""The number goes to zero while an adjuster is turned, on a gauge too slow to tell why."""

import pytest

from tests.audit.test_zero_expected import Slow


@pytest.mark.parametrize("answer", ["zeroed", "not-zeroed"])
def test_asked_in_a_move_there_is_no_stop_at_and_after_a_zero_the_axis_is_read_again(answer):
    b = Slow(4, nod_pivot=150.0)
    b.start(free=0.2)
    face = {"front": 1.6, "right": 1.35, "back": 1.1, "left": 1.35}
    for spot in ("front", "right", "back", "left", "front"):
        b.read(spot, face[spot])
    b.read("front", 1.6)
    b.do("loosened", {}, [1.6] * 10)
    stop_at = b.console["stop_at"]
    b.stands(1.6)
    assert b.turn(0.0)[0].question is not None
    console = b.console
    assert console["stop_at"] is None and b.aim is None
    assert console["detail"] == "Hands off until that is answered."
    assert [a["kind"] for a in console["actions"]][:2] == ["answer", "answer"]
    b.do("answer", {"key": answer})
    if answer == "not-zeroed":
        assert b.console["stop_at"] == stop_at
    else:
        assert (b.job.step, b.job.axis, b.job.stop) == ("check", "nod", None)
