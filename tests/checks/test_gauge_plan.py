import pytest

from daq.checks.gauge.plan import Step, steps


def test_up_then_down_without_the_top_again():
    way = steps([2.0, 0.0, 1.0], down=True, repeats=1)
    assert [(s.nominal_mm, s.direction) for s in way] == [
        (0.0, "up"),
        (1.0, "up"),
        (2.0, "up"),
        (1.0, "down"),
        (0.0, "down"),
    ]


def test_repeats_go_through_all_of_it_again():
    way = steps([0.0, 5.0, 5.0], down=False, repeats=2)
    assert way == (Step(0, "up", 1), Step(5, "up", 1), Step(0, "up", 2), Step(5, "up", 2))


@pytest.mark.parametrize(
    ("lengths", "repeats", "words"),
    [
        ([1.0], 1, "found 1 length; allowed: two or more"),
        ([1.0, 1.0], 1, "found 1 length"),
        ([-1.0, 1.0], 1, "found the length -1 mm; allowed: 0 mm and more"),
        ([0.0, 1.0], 0, "found 0 repeats; allowed: 1 to 100"),
        ([0.0, 1.0], 101, "found 101 repeats"),
    ],
)
def test_what_teaches_nothing_is_refused(lengths, repeats, words):
    with pytest.raises(ValueError, match=words):
        steps(lengths, down=True, repeats=repeats)
