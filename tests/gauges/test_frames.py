"""Every shape is found, keeps to its folder's rules and has all its parts."""

import ast
import dataclasses
import importlib
import re
import sys
import tomllib
from pathlib import Path

import pytest

from daq.gauges import config, frames
from daq.settings import SettingsError
from tests.words import faults, troubled

CAPTURES = Path(__file__).parent / "captures"
EXAMPLES = Path(__file__).parents[2] / "config" / "gauges"
SHAPES = Path(frames.__file__).parent


def examples(name):
    """The commented examples of a shape."""
    paths = EXAMPLES.glob("example-*.toml")
    return [path for path in paths if tomllib.loads(path.read_text())["frame"]["shape"] == name]


def test_shapes_are_found_by_scanning():
    assert set(frames.names()) == {path.stem for path in SHAPES.glob("[!_]*.py")}


@pytest.mark.parametrize("name", frames.names())
def test_a_shape_has_all_its_parts(name):
    module = importlib.import_module(f"daq.gauges.frames.{name}")
    assert module.__doc__
    assert module.SHAPE.options.__doc__
    assert list(CAPTURES.glob(f"{name}-*.cap")), f"no capture of the shape {name}"
    assert examples(name), f"no example in {EXAMPLES} has the shape {name}"


@pytest.mark.parametrize("name", frames.names())
def test_an_example_explains_every_key_of_its_shape(name):
    texts = [path.read_text(encoding="utf-8") for path in examples(name)]
    module = importlib.import_module(f"daq.gauges.frames.{name}")
    for each in dataclasses.fields(module.SHAPE.options):
        key = rf"# [^\n]*\n(?:# )?(?:{each.name} = |\[frame\.{each.name}\])"
        assert any(re.search(key, text) for text in texts), f"{each.name} is not explained"


@pytest.mark.parametrize("name", frames.names())
def test_a_shape_imports_no_sibling(name):
    tree = ast.parse((SHAPES / f"{name}.py").read_text())
    imported = {node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    imported |= {
        a.name for node in ast.walk(tree) if isinstance(node, ast.Import) for a in node.names
    }
    siblings = {f"daq.gauges.frames.{each}" for each in frames.names()}
    assert not imported & siblings


@pytest.mark.parametrize(
    ("table", "words"),
    [
        ({}, 'frame.shape: found nothing; allowed: one of "bcd", "bits", "fields", "text"'),
        (
            {"shape": "morse"},
            'frame.shape: found "morse"; allowed: one of "bcd", "bits", "fields", "text"',
        ),
        ({"shape": "text"}, "frame.pattern: missing; allowed: text"),
        (
            {"shape": "text", "pattern": r"(?P<value>\d)", "unit": "mm", "terminater": ";"},
            "frame: unknown key 'terminater'; nearest known: 'terminator'",
        ),
    ],
)
def test_a_wrong_frame_table_is_told(table, words):
    with pytest.raises(SettingsError) as caught:
        frames.decoder(table, "gauge.toml")
    assert faults(caught.value) == (f"gauge.toml: {words}",)


NEW_SHAPE = '''
"""One byte, one count."""

from dataclasses import dataclass

from daq.gauges.frames import Indication


@dataclass(frozen=True)
class Options:
    """`step` in mm."""

    step: float


class Decoder:
    bad = damaged = 0

    def __init__(self, options):
        self.step = options.step

    def feed(self, data):
        return [
            Indication(str(count), count * self.step, "mm", (), bytes([count])) for count in data
        ]

    def amiss(self, data):
        return None

    def gap(self):
        pass


class Shape:
    options = Options
    make = Decoder


SHAPE = Shape()
'''


@pytest.fixture
def new_shape(tmp_path, monkeypatch):
    (tmp_path / "counts.py").write_text(NEW_SHAPE)
    monkeypatch.setattr(frames, "__path__", [*frames.__path__, str(tmp_path)])
    importlib.invalidate_caches()
    yield "counts"
    sys.modules.pop("daq.gauges.frames.counts", None)
    vars(frames).pop("counts", None)


def test_a_new_shape_is_a_file_and_nothing_else(new_shape, table):
    frame = {"shape": new_shape, "step": 0.5}
    made = config.from_table(table(frame=frame), "gauge.toml")
    (one, two) = frames.decoder(made.frame, "gauge.toml").feed(b"\x02\x03")
    assert (one.value, two.value) == (1.0, 1.5)
    with troubled(SettingsError, match=r'frame\.shape: found "none".*"counts", "fields", "text"'):
        frames.decoder({"shape": "none"}, "gauge.toml")
