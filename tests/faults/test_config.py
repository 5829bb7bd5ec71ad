"""A configuration that cannot be used: words that lead to the place."""

import pytest

from daq.says import words
from daq.service.files import load
from daq.settings import SettingsError

GAUGE = "gauges/practice.toml"
MILL = "machines/practice-mill.toml"


@pytest.fixture
def gives_up():
    """What is said of a shop where no mistake is let pass, as at the bench."""

    def refuse(shop):
        with pytest.raises(SettingsError) as refused:
            load(shop.config)
        return words(refused.value.said) + "\n"

    return refuse


def test_a_folder_that_is_not_there(shop, gives_up):
    shop.config = shop.config.with_name("nowhere")
    said = gives_up(shop)
    assert f"{shop.config}: found no such folder; allowed: one with shop.toml in it" in said


@pytest.mark.parametrize("file", ["shop.toml", MILL, GAUGE])
def test_bad_toml(shop, gives_up, file):
    shop.add(file, 'name = "no end')
    assert f"{shop.config / file}: is not TOML: " in (said := gives_up(shop))
    assert "line 1" in said


@pytest.mark.parametrize("file", ["shop.toml", MILL, GAUGE])
def test_bytes_that_are_no_text(shop, gives_up, file):
    path = shop.config / file
    path.write_bytes(path.read_bytes() + b"\xff\n")
    assert "found a byte that is not UTF-8; allowed: a UTF-8 text file" in (said := gives_up(shop))
    assert str(path) in said


@pytest.mark.parametrize(
    ("file", "section", "line", "said"),
    [
        ("shop.toml", "", 'host = ["a"]', "unknown key 'host'; nearest known: 'hosts'"),
        (
            "shop.toml",
            "[settle]",
            "wait = 1",
            "settle: unknown key 'wait'; nearest known: 'wait_s'",
        ),
        (MILL, "", 'surfaces = "x"', "unknown key 'surfaces'; nearest known: 'surface'"),
        (MILL, "[nod]", 'limits = "1 mm"', "nod: unknown key 'limits'; nearest known: 'limit'"),
        (MILL, "", "tighten.bolt = 4", "unknown key 'tighten'; known: "),
        (
            MILL,
            "[nod]",
            'tighten.bolt = ["left"]',
            "nod.tighten: unknown key 'bolt'; nearest known: 'bolts'",
        ),
        (GAUGE, "[line]", "bauds = 9600", "line: unknown key 'bauds'; nearest known: 'baud'"),
        (GAUGE, "[frame]", 'ends = "x"', "frame: unknown key 'ends'; known: "),
    ],
)
def test_an_unknown_key_and_the_nearest_known(shop, gives_up, file, section, line, said):
    shop.add(file, line, section)
    assert f"{shop.config / file}: {said}" in gives_up(shop)


@pytest.mark.parametrize(
    ("file", "section", "key", "value", "said"),
    [
        ("shop.toml", "", "hosts", "7", "hosts: found 7; allowed: a list, each item text"),
        ("shop.toml", "[settle]", "wait_s", '"soon"', 'wait_s: found "soon"; allowed: a number'),
        ("shop.toml", "[settle]", "wait_s", "-1", "wait_s: found -1; allowed: 0 to 60"),
        ("shop.toml", "[settle]", "min_samples", "1", "min_samples: found 1; allowed: 3 to "),
        (MILL, "", "sweep_radius", '"12 bananas"', 'sweep_radius: found "12 bananas"; allowed: '),
        (MILL, "", "sweep_radius", '"1 mm"', "sweep_radius: found 1.0 mm; allowed: at least 5 mm"),
        (MILL, "", "unit", '"cm"', 'unit: found "cm"; allowed: one of "mm", "in"'),
        (MILL, "[nod]", "pivot_height", '"3 kg"', 'nod.pivot_height: found "3 kg"; allowed: '),
        (GAUGE, "", "calibration_due", '"soon"', 'calibration_due: found "soon"; allowed: a date'),
        (GAUGE, "", "counts_up", '"yes"', 'counts_up: found "yes"; allowed: true or false'),
        (GAUGE, "[line]", "bits", "9", "line.bits: found 9; allowed: one of 5, 6, 7, 8"),
        (GAUGE, "[frame]", "shape", '"texts"', 'frame.shape: found "texts"; allowed: one of "'),
    ],
)
def test_a_bad_value_and_what_is_allowed(shop, gives_up, file, section, key, value, said):
    shop.set(file, key, value, section)
    found = gives_up(shop)
    assert str(shop.config / file) in found
    assert said in found


@pytest.mark.parametrize(
    ("section", "line", "said"),
    [
        ("", 'tolerance = "genral"', "tolerance: found 'genral'; allowed: roughing, general, "),
        ("", 'ram_angle = "80 deg"', "ram_angle: found 80 deg; allowed: at least -60 deg"),
        ("", 'positions = ["right", "back", "left"]', "always with front, right and left; missing"),
        ("", 'second_gauge = "example-inch"', "second_radius: missing beside second_gauge = 'ex"),
        ("[nod]", 'one_sided = "left"', "nod.one_sided: found 'left'; allowed: front, back"),
        ("[nod]", 'adjust.kind = "shim"', 'nod.adjust: kind: found "shim" without bolt_spacing'),
        ("[nod]", 'tighten.bolts = ["a", "a"]', "nod.tighten: bolts: found 'a' twice; allowed: "),
    ],
)
def test_a_key_that_makes_no_sense_here(shop, gives_up, section, line, said):
    shop.add(MILL, line, section)
    found = gives_up(shop)
    assert str(shop.config / MILL) in found
    assert said in found


def test_a_lever_gauges_angle_on_a_plunger(shop, gives_up):
    shop.add(GAUGE, 'stylus_angle = "15 deg"')
    assert "found a stylus_angle on a plunger gauge; allowed: on a lever gauge" in gives_up(shop)


def test_a_machine_with_a_gauge_nobody_knows(shop, gives_up):
    shop.set(MILL, "gauge", '"practise"')
    said = gives_up(shop)
    assert f"{shop.config / MILL}: gauge: found 'practise'; allowed: " in said
    assert said.endswith("; nearest known: 'practice'\n")


def test_every_problem_of_every_file_at_once(shop, gives_up):
    shop.set(MILL, "unit", '"cm"')
    shop.add(MILL, "colour = 3")
    shop.set(GAUGE, "travel", '"long"')
    (shop.config / "shop.toml").unlink()
    said = gives_up(shop)
    for part in (
        "shop.toml: cannot be read",
        "unit: found",
        "unknown key 'colour'",
        "travel: found",
    ):
        assert part in said


@pytest.mark.parametrize(
    ("file", "key", "value", "said"),
    [
        ("shop.toml", "hosts", "[" * 5000 + "]" * 5000, "found brackets nested too deep"),
        (MILL, "pivot_distance", "7" * 5000, "found a number of some thousand digits"),
        ("shop.toml", "wait_s", "0x" + "F" * 400, "found a number of more than 100 digits"),
        (GAUGE, "baud", "0x" + "F" * 5000, "found a number of more than 100 digits"),
        (MILL, "tolerance", "0x" + "F" * 5000, "found over 100 digits"),
        ("shop.toml", "min_samples", "0x" + "F" * 2000, "found a number of more than 100 digits"),
    ],
    ids=["nesting", "digits", "hex", "hex for a whole number", "hex for text", "hex in a check"],
)
def test_values_too_big_to_read(shop, gives_up, file, key, value, said):
    if key == "tolerance":
        shop.add(file, f"{key} = {value}")
    else:
        shop.set(file, key, value)
    told = gives_up(shop)
    assert f"{shop.config / file}: " in told
    assert said in told
    assert len(told) < 400 + len(str(shop.config))
