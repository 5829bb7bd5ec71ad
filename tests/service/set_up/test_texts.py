"""The files that the set-up page makes: what they say, and that nothing else was changed."""

import datetime
import json
import tomllib

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from daq.gauges.config import from_table
from daq.says import language, words
from daq.service import machine_file, shop_file
from daq.service.files import shipped
from daq.service.set_up.gaps import gap, lacking
from daq.service.set_up.gauge_text import GivenGauge, examples, gauge_text
from daq.service.set_up.machine_text import GivenMachine, machine_text
from daq.service.set_up.shop_text import shop_text
from daq.service.set_up.text import NotChangedError, changed, put_in
from daq.settings import SettingsError, toml_value

TODAY = "2026-11-29"
DUE = datetime.date(2027, 3, 31)
FILLED = {"travel": "10 mm", "max_error": "0.02 mm", "calibration_due": DUE}
EXAMPLES = examples(shipped())
PORT = "/dev/serial/by-id/usb-Adapter_7-if00-port0"
SHOP = (shipped() / "shop.toml").read_text(encoding="utf-8")


def comments(text):
    return [line for line in text.splitlines() if line.startswith("#")]


def made_gauge(key, **more):
    said = GivenGauge(PORT, key, "Bench gauge", "A-17", **{"resolution": "0.002 mm", **more})
    text = gauge_text(said, EXAMPLES[key], tomllib.loads(EXAMPLES[key]), TODAY)
    return text, from_table(FILLED | tomllib.loads(text), "gauge")


def made_machine(tmp_path, **more):
    said = GivenMachine("Mill 1", "bench", "mm", "100", **more)
    path = tmp_path / "mill-1.toml"
    path.write_text(machine_text(said, TODAY, words), encoding="utf-8")
    return machine_file.read(path)


@pytest.mark.parametrize("key", sorted(EXAMPLES))
def test_a_gauge_is_its_example_with_what_was_told_and_nobody_elses_papers(key):
    text, gauge = made_gauge(key)
    example_of = from_table(tomllib.loads(EXAMPLES[key]), "example")
    assert (gauge.name, gauge.serial_number, gauge.line.port) == ("Bench gauge", "A-17", PORT)
    assert (gauge.frame, gauge.talk) == (example_of.frame, example_of.talk)
    assert gauge.certificate.number == gauge.laboratory == "" and gauge.calibrated_on is None
    assert gauge.certificate.uncertainty is None
    assert set(comments(EXAMPLES[key])) <= set(comments(text)), "a comment was lost"
    assert gauge.resolution == 0.002


@pytest.mark.parametrize("key", sorted(EXAMPLES))
def test_what_was_not_told_is_missing_and_can_be_put_in(key):
    text, _ = made_gauge(key)
    assert "# Missing: travel, max_error, calibration_due. Put in what its papers say" in text
    assert lacking(text) == ("travel", "max_error", "calibration_due")
    with pytest.raises(SettingsError) as refused:
        from_table(tomllib.loads(text), "gauge")
    assert tuple(map(gap, refused.value.problems)) == lacking(text)
    whole = text
    for paper, value in FILLED.items():
        whole = put_in(whole, paper, value)
    assert lacking(whole) == ()
    assert from_table(tomllib.loads(whole), "gauge").calibration_due == DUE
    assert len(set(whole.splitlines()) - set(text.splitlines())) == len(FILLED)
    with pytest.raises(NotChangedError):
        put_in(whole, "travel", "3 mm")


def test_a_comment_in_a_table_is_no_place_to_put_a_value_in():
    with pytest.raises(NotChangedError):
        put_in('[line]\n# travel = "1 mm"\n', "travel", "2 mm")


def test_what_was_told_of_a_gauge_stands_in_its_file():
    told = {"resolution": "0.01 mm", "travel": "10 mm", "max_error": "0.02 mm"}
    due = datetime.date(2027, 3, 31)
    text, gauge = made_gauge("example-inch", **told, due=due, kind="lever", counts_up=False)
    assert (gauge.resolution, gauge.travel, gauge.max_error) == (0.01, 10.0, 0.02)
    assert (gauge.calibration_due, gauge.kind, gauge.counts_up) == (due, "lever", False)
    assert "Missing" not in text


def test_a_machine_says_what_was_measured(tmp_path):
    lengths = {"side_pivot": "5", "side_height": "380", "nod_pivot": "182,5", "nod_height": "330"}
    machine = made_machine(tmp_path, **lengths, nod_moved="hand", tolerance="boring")
    assert machine.sweep_radius == 100.0
    assert (machine.side.pivot_distance, machine.nod.pivot_distance) == (5.0, 182.5)
    assert (machine.side.pivot_height, machine.nod.pivot_height) == (380.0, 330.0)
    assert machine.nod.pivot_doubt is None
    assert (machine.nod.adjust.kind, machine.side.adjust.kind) == ("hand", "worm")
    assert (machine.nod.limit, machine.side.tolerance) == (0.01, "boring")


@pytest.mark.parametrize(
    ("tag", "named"),
    [
        ("en", ("Nod", "the nod bolts", "the nod worm", "ground ring on the table")),
        ("es", ("Cabeceo", "los tornillos de cabeceo", "el sinfín de cabeceo", "anillo")),
    ],
)
def test_a_machine_names_its_parts_in_the_language_of_whoever_sets_up(tmp_path, tag, named):
    path = tmp_path / "mill-1.toml"
    given_of = GivenMachine("Mill 1", "bench", "mm", "100")
    path.write_text(machine_text(given_of, TODAY, language(tag).words), encoding="utf-8")
    machine = machine_file.read(path)
    found = (machine.nod.say, machine.nod.bolts, machine.nod.adjuster)
    assert (*found, machine.surface[: len(named[3])]) == named


def test_what_nobody_measured_is_in_great_doubt_and_says_so(tmp_path):
    machine = made_machine(tmp_path)
    assert (machine.nod.pivot_doubt, machine.nod.pivot_height_doubt) == (120.0, 150.0)
    assert machine.side.pivot_doubt == 20.0
    assert (tmp_path / "mill-1.toml").read_text(encoding="utf-8").count("# Not measured") == 4


@pytest.mark.parametrize(
    ("more", "key"),
    [
        ({"radius": "far"}, "sweep_radius"),
        ({"radius": "4"}, "sweep_radius"),
        ({"radius": "100", "nod_pivot": "9000"}, "nod.pivot_distance"),
        ({"radius": ""}, "sweep_radius"),
        ({"radius": "100", "side_height": '5" # x'}, "side.pivot_height"),
    ],
)
def test_a_length_that_cannot_be_is_refused_by_its_key(tmp_path, more, key):
    path = tmp_path / "mill.toml"
    path.write_text(
        machine_text(GivenMachine("M", "g", "mm", **more), TODAY, words), encoding="utf-8"
    )
    with pytest.raises(SettingsError) as refused:
        machine_file.read(path)
    assert [each.of["path"] for each in refused.value.problems] == [key]


def test_the_first_shop_file_has_nothing_of_the_practice_shop(tmp_path):
    path = tmp_path / "shop.toml"
    path.write_text(shop_text("Hill works", "es", SHOP), encoding="utf-8")
    shop = shop_file.read(path)
    assert (shop.name, shop.papers.address, shop.papers.method) == ("Hill works", "", "")
    assert "practice" not in str(shop).lower() and shop.language == "es"
    assert set(comments(SHOP)) <= set(comments(path.read_text(encoding="utf-8")))


@given(st.text())
@example("\x7f\u2028\ud83d\\'\"\n")
def test_any_text_is_the_same_again_when_the_file_is_read(text):
    text = text.encode("utf-8", "replace").decode()
    assert tomllib.loads(f"key = {toml_value(text)}") == {"key": text}
    assert tomllib.loads(changed('key = "it" # note\n', {"key": text})) == {"key": text}


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("x = 1\n", "key"),
        ("[line]\nport = [\n1]\n", "line.port"),
        ('key = """\nkey = 1\n"""\n', "key"),
        ("key = 1\nkey = 2\n", "key"),
        ("line.port = 1\n", "line.port"),
        ("[[line]]\nport = 1\n", "line.port"),
        ("a = 1\nb = ]\n", "a"),
    ],
)
def test_what_cannot_be_changed_for_certain_is_left_to_a_person(text, key):
    with pytest.raises(NotChangedError):
        changed(text, {key: 7})


def test_a_change_keeps_every_other_byte():
    text = 'a = 1 # one\n\n[nod] # axis\n  # "b"\nb = "x # y"   # two\nc = 3\n'
    assert changed(text, {"nod.b": "z"}) == text.replace('"x # y"', '"z"')
    assert json.dumps(changed(text, {"a": None})) == json.dumps("# " + text)
