"""A table becomes the dataclass it is handed, or every reason why not is listed."""

import datetime
import json
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Annotated, Any, Literal

import hypothesis
import pytest
from hypothesis import given
from hypothesis import strategies as st

from daq import settings
from daq.settings import Angle, Length, Range, Seconds, SettingsError, Slope
from tests.words import en, faults, troubled

steady = hypothesis.settings(deadline=None, derandomize=True)


@dataclass(frozen=True)
class Bolt:
    name: str
    reach: Annotated[Length, Range(above=0.0, hi=500.0)] = 20.0


@dataclass(frozen=True)
class Everything:
    text: str
    count: Annotated[int, Range(1, 8)]
    number: float
    flag: bool
    day: datetime.date
    choice: Literal["mm", "in"]
    tilt: Slope
    wait: Seconds
    turn: Angle
    bolt: Bolt
    maybe: Length | None = None
    names: tuple[str, ...] = ()
    bolts: tuple[Bolt, ...] = ()
    table: Mapping[str, int] = field(default_factory=dict)
    reaches: dict[str, Length] = field(default_factory=dict)
    either: int | Literal["auto"] = "auto"
    anything: Any = None


GOOD = {
    "text": "ü",
    "count": 3,
    "number": 4,
    "flag": True,
    "day": datetime.date(2028, 3, 31),
    "choice": "in",
    "tilt": "0.025 mm/300 mm",
    "wait": "200 ms",
    "turn": "180 deg",
    "bolt": {"name": "M12", "reach": "1 in"},
    "maybe": "4 in",
    "names": ["a", "b"],
    "bolts": [{"name": "a"}, {"name": "b", "reach": "30 mm"}],
    "table": {"one": 1},
    "reaches": {"near": "1 mm"},
    "either": 7,
    "anything": {"x": [1, "y"]},
}


def problems(changes, **how):
    """Build GOOD with some keys changed (...: left out) and return the complaints."""
    table = {key: value for key, value in {**GOOD, **changes}.items() if value is not ...}
    with pytest.raises(SettingsError) as caught:
        settings.build(Everything, table, "shop.toml", **how)
    assert en(caught.value) == "\n".join(faults(caught.value))
    return list(faults(caught.value))


def test_everything_is_built():
    assert settings.build(Everything, GOOD, "shop.toml") == Everything(
        text="ü",
        count=3,
        number=4.0,
        flag=True,
        day=datetime.date(2028, 3, 31),
        choice="in",
        tilt=pytest.approx(0.025 / 300),
        wait=0.2,
        turn=pytest.approx(math.pi),
        bolt=Bolt("M12", 25.4),
        maybe=101.6,
        names=("a", "b"),
        bolts=(Bolt("a", 20.0), Bolt("b", 30.0)),
        table={"one": 1},
        reaches={"near": 1.0},
        either=7,
        anything={"x": [1, "y"]},
    )


def test_defaults_and_iso_dates():
    table = {k: GOOD[k] for k in ("text", "count", "number", "flag", "choice", "tilt", "wait")}
    table |= {"turn": "0 rad", "bolt": {"name": "x"}, "day": "2028-03-31"}
    built = settings.build(Everything, table, "shop.toml")
    assert built.day == datetime.date(2028, 3, 31)
    assert (built.maybe, built.names, built.table, built.either) == (None, (), {}, "auto")
    assert isinstance(built.number, float)


@pytest.mark.parametrize(
    ("key", "value", "words"),
    [
        ("text", 5, "found 5; allowed: text"),
        ("count", True, "found true; allowed: a whole number"),
        ("count", 3.0, "found 3.0; allowed: a whole number"),
        ("count", 9, "found 9; allowed: at least 1 and at most 8"),
        ("number", True, "found true; allowed: a number"),
        ("number", math.nan, "found nan; allowed: a number"),
        ("number", math.inf, "found inf; allowed: a number"),
        ("number", -math.inf, "found -inf; allowed: a number"),
        ("number", "4", 'found "4"; allowed: a number'),
        ("flag", 1, "found 1; allowed: true or false"),
        ("flag", "yes", 'found "yes"; allowed: true or false'),
        ("day", "31.3.2028", 'found "31.3.2028"; allowed: a date such as 2028-03-31'),
        ("day", 20280331, "found 20280331; allowed: a date such as 2028-03-31"),
        (
            "day",
            datetime.datetime(2028, 3, 31, 12, 0),
            "found 2028-03-31 12:00:00; allowed: a date such as 2028-03-31",
        ),
        ("choice", "cm", 'found "cm"; allowed: one of "mm", "in"'),
        ("choice", ["mm"], 'found a list; allowed: one of "mm", "in"'),
        ("maybe", 100, 'found 100; allowed: a length such as "100 mm" or "4 in"'),
        (
            "maybe",
            "12 bananas",
            'found "12 bananas"; allowed: a length such as "100 mm" or "4 in"',
        ),
        ("names", "a", 'found "a"; allowed: a list, each item text'),
        ("table", [1], "found a list; allowed: a table"),
        ("text", {}, "found a table; allowed: text"),
        ("bolt", "M12", 'found "M12"; allowed: a table'),
        ("either", "manual", 'found "manual"; allowed: a whole number or one of "auto"'),
        ("text", ..., "missing; allowed: text"),
        ("wait", ..., 'missing; allowed: a time such as "0.5 s" or "200 ms"'),
        ("count", ..., "missing; allowed: a whole number, at least 1 and at most 8"),
        ("text", None, "found nothing; allowed: text"),
    ],
)
def test_a_wrong_value_is_told(key, value, words):
    assert problems({key: value}) == [f"shop.toml: {key}: {words}"]


def test_problems_below_name_the_whole_path():
    assert problems(
        {
            "bolt": {"name": "a", "reach": "0 mm"},
            "bolts": [{"name": "a"}, {"name": 5, "reech": "1 mm"}],
            "names": ["a", 2],
            "table": {"one": "1"},
            "reaches": {"near": "1 s"},
        }
    ) == [
        "shop.toml: bolt.reach: found 0.0 mm; allowed: above 0 mm and at most 500 mm",
        "shop.toml: names[1]: found 2; allowed: text",
        "shop.toml: bolts[1]: unknown key 'reech'; nearest known: 'reach'",
        "shop.toml: bolts[1].name: found 5; allowed: text",
        'shop.toml: table.one: found "1"; allowed: a whole number',
        'shop.toml: reaches.near: found "1 s"; allowed: a length such as "100 mm" or "4 in"',
    ]


def test_unknown_keys():
    assert problems({"txt": "a", "zzz": 1}) == [
        "shop.toml: unknown key 'txt'; nearest known: 'text'",
        "shop.toml: unknown key 'zzz'; known: " + ", ".join(GOOD),
    ]


def test_not_even_a_table():
    with troubled(SettingsError, match=r"shop\.toml: found a list; allowed: a table"):
        settings.build(Everything, [], "shop.toml")


def test_what_a_dataclass_checks_itself_is_a_problem_too():
    @dataclass(frozen=True)
    class Pair:
        low: int
        high: int

        def __post_init__(self):
            if self.low > self.high:
                raise ValueError(f"found low {self.low}; allowed: at most high, {self.high}")

    assert settings.build(Pair, {"low": 1, "high": 2}, "x") == Pair(1, 2)
    with pytest.raises(SettingsError) as caught:
        settings.build(Pair, {"low": 3, "high": 2}, "x.toml")
    assert faults(caught.value) == ("x.toml: found low 3; allowed: at most high, 2",)


def test_plain_quantities_are_numbers_with_the_same_limits():
    table = {"name": "a", "reach": 30}
    assert settings.build(Bolt, table, "event", quantities="plain") == Bolt("a", 30.0)
    for reach, words in (
        ("30 mm", 'found "30 mm"; allowed: a number'),
        (math.nan, "found nan; allowed: a number"),
        (501.5, "found 501.5 mm; allowed: above 0 mm and at most 500 mm"),
    ):
        with pytest.raises(SettingsError) as caught:
            settings.build(Bolt, {"name": "a", "reach": reach}, "event", quantities="plain")
        assert faults(caught.value) == (f"event: reach: {words}",)


finite = st.floats(allow_nan=False, allow_infinity=False)
reach = st.floats(0.0, 500.0, exclude_min=True)
bolts = st.builds(Bolt, name=st.text(), reach=reach)
everything = st.builds(
    Everything,
    text=st.text(),
    count=st.integers(1, 8),
    number=finite,
    flag=st.booleans(),
    day=st.dates(),
    choice=st.sampled_from(["mm", "in"]),
    tilt=finite,
    wait=finite,
    turn=finite,
    bolt=bolts,
    maybe=st.none() | finite,
    names=st.lists(st.text()).map(tuple),
    bolts=st.lists(bolts, max_size=3).map(tuple),
    table=st.dictionaries(st.text(), st.integers()),
    reaches=st.dictionaries(st.text(), finite),
    either=st.integers() | st.just("auto"),
    anything=st.none() | st.dictionaries(st.text(), st.lists(finite)),
)


@steady
@given(everything)
def test_plain_and_build_undo_each_other_through_json(obj):
    table = json.loads(json.dumps(settings.plain(obj), allow_nan=False))
    assert settings.build(Everything, table, "event", quantities="plain") == obj
    assert settings.build(Everything, table, "event", quantities="plain", limits=False) == obj


def test_without_limits_defaults_are_filled_in_and_types_are_checked():
    table = {"name": "a", "reach": 501.5}
    assert settings.build(Bolt, table, "row", quantities="plain", limits=False).reach == 501.5
    assert settings.build(Bolt, {"name": "a"}, "row", limits=False) == Bolt("a")
    short = {k: v for k, v in GOOD.items() if k not in ("table", "reaches", "bolts", "either")}
    assert settings.build(Everything, short, "x", limits=False) == settings.build(
        Everything, short, "x"
    )
    with troubled(SettingsError, match="row: reach: found nothing; allowed: a length"):
        settings.build(Bolt, {"name": "a", "reach": None}, "row", limits=False)


@pytest.mark.parametrize("thing", [{1, 2}, b"raw", datetime.datetime(2028, 3, 31), Bolt])
def test_plain_refuses_what_json_cannot_hold(thing):
    with pytest.raises(TypeError, match="has no JSON form"):
        settings.plain({"x": [thing]})


def test_read_toml(tmp_path):
    path = tmp_path / "gauge.toml"
    path.write_text('name = "ü"\nday = 2028-03-31\n', encoding="utf-8")
    assert settings.read_toml(path) == {"name": "ü", "day": datetime.date(2028, 3, 31)}


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"a = 1\nb = = 2\n", "is not TOML: Invalid value (at line 2, column 5)"),
        (b"a = 1\n\nb = '\xff'\n", "line 3: found a byte that is not UTF-8; allowed: a UTF-8 text"),
        (None, "cannot be read: No such file or directory"),
    ],
)
def test_read_toml_says_what_is_wrong(tmp_path, content, words):
    path = tmp_path / "gauge.toml"
    if content is not None:
        path.write_bytes(content)
    with pytest.raises(SettingsError) as caught:
        settings.read_toml(path)
    (problem,) = faults(caught.value)
    assert problem.startswith(f"{path}: {words}")
