"""A gauge's file: the examples are whole, and what is wrong is told all at once."""

import dataclasses
import math
import re
from pathlib import Path

import pytest

from daq import settings
from daq.gauges import config, frames
from daq.gauges.frames.text import TextOptions
from daq.settings import SettingsError
from tests.words import faults

FOLDER = Path(__file__).parents[2] / "config" / "gauges"


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.toml")), ids=lambda path: path.stem)
def test_each_file_in_the_folder_works(path):
    made = config.read(path)
    assert made.cosine == math.cos(made.stylus_angle)
    frames.decoder(made.frame, path.name)


def test_the_practice_gauge():
    made = config.read(FOLDER / "practice.toml")
    assert (made.serial_number, made.kind, made.counts_up) == ("P-0417", "plunger", True)
    assert (made.resolution, made.travel, made.max_error) == (0.001, 12.7, 0.004)
    assert made.line.url(Path("/data")) == "/data/ttys/practice"
    decoder = frames.decoder(made.frame, "practice.toml")
    (one, two) = decoder.feed(b"\r\n+001.234 mm\r\n-000.04858 in\r\n")
    assert (one.value, one.unit) == (1.234, "mm")
    assert (two.value, two.unit) == (-0.04858, "in")  # after its unit key was pressed
    assert decoder.feed(b"+001.23 mm\r\n+000.0485 in\r\n") == []  # a digit was lost


def test_the_inch_example():
    made = config.read(FOLDER / "example-inch.toml")
    assert made.resolution == pytest.approx(0.00254)  # 0.0001 in of 25.4 mm
    assert made.stylus_angle == pytest.approx(math.radians(15))
    assert made.line.port.startswith("/dev/serial/by-id/")
    decoder = frames.decoder(made.frame, "example-inch.toml")
    (one, two) = decoder.feed(b"\r+ 0.0125 in\r- 0.0125 inL\r")
    assert (one.value, one.unit, one.flags) == (0.0125, "in", ())
    assert (two.value, two.flags) == (-0.0125, ("weak-battery",))


@pytest.mark.parametrize(
    "owner", [config.GaugeConfig, config.Certificate, config.SerialLine, config.Talk, TextOptions]
)
def test_the_inch_example_explains_every_key(owner):
    text = (FOLDER / "example-inch.toml").read_text(encoding="utf-8")
    for each in dataclasses.fields(owner):
        key = rf"(#[^\n]*\n)(# )?{each.name} = |(#[^\n]*\n)?\[(frame\.)?{each.name}\]"
        assert re.search(key, text), f"{each.name} is not explained"


@pytest.mark.parametrize(
    ("port", "url"),
    [
        ("ttys/practice", "/data/ttys/practice"),
        ("/dev/ttyUSB0", "/dev/ttyUSB0"),
        ("replay://captures/a b.cap?rate=9", "replay:///data/captures/a b.cap?rate=9"),
        ("replay:///elsewhere/one.cap", "replay:///elsewhere/one.cap"),
        ("socket://192.168.1.20:4001", "socket://192.168.1.20:4001"),
        ("loop://", "loop://"),
    ],
)
def test_url(port, url):
    assert config.SerialLine(port).url(Path("/data")) == url


def test_every_problem_is_told_those_of_the_frame_too(table):
    wrong = table(
        kind="laser",
        travel=...,
        line={"port": "x", "bauds": 9600, "bits": 9},
        frame={"shape": "text", "pattern": r"(?P<value>\d)"},
    )
    with pytest.raises(SettingsError) as caught:
        config.from_table(wrong, "dial.toml")
    assert faults(caught.value) == (
        'dial.toml: kind: found "laser"; allowed: one of "plunger", "lever"',
        'dial.toml: travel: missing; allowed: a length such as "100 mm" or "4 in", '
        "above 0 mm and at most 200 mm",
        "dial.toml: line: unknown key 'bauds'; nearest known: 'baud'",
        "dial.toml: line.bits: found 9; allowed: one of 5, 6, 7, 8",
        "dial.toml: frame: found the unit nowhere; allowed: either a group (?P<unit>…) in pattern "
        'or a fixed unit = "mm" or "in"',
    )


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"stylus_angle": "15 deg"}, "found a stylus_angle on a plunger gauge"),
        (
            {"calibrated_on": "2028-04-01"},
            "found calibrated_on 2028-04-01 after calibration_due 2028-03-31; allowed: the day",
        ),
        ({"angle_doubt": "5 deg"}, "found an angle_doubt on a plunger gauge; allowed: on a lever"),
        (
            {"certificate": {"uncertainty": "1 um"}},
            "found certificate.uncertainty without its day; allowed: certificate.date or",
        ),
        (
            {"certificate": {"date": "2028-04-01"}},
            "found certificate.date 2028-04-01 after calibration_due 2028-03-31",
        ),
        ({"certificate": {"k": 0}}, "certificate.k: found 0; allowed: at least 1 and at most 5"),
        ({"certificate": 5}, "certificate: found 5; allowed: a table"),
        ({"resolution": "1 mm", "travel": "0.5 mm"}, "found resolution 1 mm; allowed: at most the"),
        ({"frame": ...}, "frame: missing; allowed: a table"),
        ({"frame": "text"}, 'frame: found "text"; allowed: a table'),
        ({"talk": {"interval": "0 s"}}, "talk.interval: found 0.0 s; allowed: above 0 s"),
        (
            {"talk": {"interval": "1 s", "mode": "whispers"}},
            'talk.mode: found "whispers"; allowed:',
        ),
    ],
)
def test_what_contradicts_itself_is_told(table, changes, words):
    with pytest.raises(SettingsError) as caught:
        config.from_table(table(**changes), "dial.toml")
    (problem,) = faults(caught.value)
    assert problem.startswith(f"dial.toml: {words}")


def test_a_certificate_may_be_its_number_alone(table):
    made = config.from_table(table(certificate="C-1"), "dial.toml").certificate
    assert (made.number, made.u_mm) == ("C-1", None)


def test_a_certificates_uncertainty_is_divided_by_its_k(table):
    stated = {"uncertainty": "0.0012 mm", "k": 2.0, "date": "2027-03-31"}
    made = config.from_table(table(certificate=stated), "dial.toml")
    assert made.certificate.u_mm == pytest.approx(0.0006)
    assert made.drift_mm == pytest.approx(made.max_error / 10.0)
    assert made.doubted_angle is None


def test_a_config_can_be_put_into_an_event_and_taken_out(table):
    made = config.from_table(table(), "dial.toml")
    back = settings.build(config.GaugeConfig, settings.plain(made), "event", quantities="plain")
    assert back == made
