"""Every capture is whole, and says what its golden file says however its bytes arrive."""

import shutil
import sys
from pathlib import Path

import pytest

from daq.gauges import frames

sys.path.append(str(Path(__file__).parent / "captures"))

import captured

CAPTURES = captured.FOLDER
KINDS = {"flip", "drop", "duplicate", "burst"}


def lacks(name, folder=CAPTURES):
    """What a capture lacks, each in a word."""
    missing = [
        end for end in (".cap", ".toml", ".golden") if not (folder / f"{name}{end}").exists()
    ]
    if missing:
        return missing
    capture = captured.load(name, folder)
    config, (golden, bad) = capture.config, capture.golden()
    whole = {
        "header": set(capture.header) == captured.HEADER and all(capture.header.values()),
        "shape": capture.header.get("shape") == config.frame["shape"] == name.split("-")[0],
        "settings": capture.header.get("settings") == captured.settings(config.line),
        "residual": set(capture.residual) == KINDS if "residual" in capture.header else False,
        "frames": len(golden) > 1 and bad >= 0,
        "bytes": any(capture.pieces),
    }
    return [part for part, there in whole.items() if not there]


def said(indications):
    return [
        {
            "text": each.text,
            "value": each.value,
            "unit": each.unit,
            "flags": list(each.flags),
            "raw": each.raw.hex(),
        }
        for each in indications
    ]


@pytest.fixture
def copy(tmp_path):
    """A gauge added to a folder of its own, by files alone."""
    for path in CAPTURES.glob("bcd-packed-unit-key.*"):
        shutil.copy(path, tmp_path / f"bcd-new{path.suffix}")
    return tmp_path


@pytest.mark.parametrize("name", captured.names())
def test_a_capture_has_all_its_parts(name):
    assert lacks(name) == []


@pytest.mark.parametrize("name", captured.names())
def test_a_capture_says_what_its_golden_file_says(name):
    capture = captured.load(name)
    golden, bad = capture.golden()
    for block in range(1, max(map(len, capture.pieces)) + 1):
        decoder = capture.decoder()
        assert said(captured.replay(decoder, capture.pieces, block)) == golden
        assert decoder.bad == bad


@pytest.mark.parametrize("name", captured.names())
def test_a_capture_may_be_split_anywhere(name):
    capture = captured.load(name)
    golden, bad = capture.golden()
    for number, piece in enumerate(capture.pieces):
        for place in range(1, len(piece)):
            decoder, found = capture.decoder(), []
            for other, whole in enumerate(capture.pieces):
                if other:
                    decoder.gap()
                    found += decoder.feed(b"")
                for part in (whole[:place], whole[place:]) if other == number else (whole,):
                    found += decoder.feed(part)
            assert (said(found), decoder.bad) == (golden, bad)


@pytest.mark.parametrize("shape", frames.names())
def test_each_shape_has_captures_of_what_happens(shape):
    captures = [captured.load(name) for name in captured.names() if name.startswith(f"{shape}-")]
    assert len(captures) >= 2
    goldens = [capture.golden() for capture in captures]
    assert any(bad for _, bad in goldens), "none with garbage"
    assert any(len({each["unit"] for each in golden}) == 2 for golden, _ in goldens), "one unit"
    assert any(each["flags"] for golden, _ in goldens for each in golden), "none with flags"


def test_a_new_gauge_is_files_and_nothing_else(copy):
    assert captured.names(copy) == ["bcd-new"]
    assert lacks("bcd-new", copy) == []
    capture = captured.load("bcd-new", copy)
    golden, _ = capture.golden()
    assert said(captured.replay(capture.decoder(), capture.pieces, 7)) == golden


@pytest.mark.parametrize("part", [".cap", ".toml", ".golden"])
def test_a_lacking_file_is_noticed(copy, part):
    (copy / f"bcd-new{part}").unlink()
    assert captured.names(copy) == ["bcd-new"]
    assert lacks("bcd-new", copy) == [part]


@pytest.mark.parametrize(
    ("found", "put", "part"),
    [
        ("cable: ", "wire: ", "header"),
        ("shape: bcd", "shape: bits", "shape"),
        ("9600 baud", "4800 baud", "settings"),
        ("flip ", "slip ", "residual"),
        ("residual: ", "rest: ", "residual"),
    ],
)
def test_a_lacking_part_is_noticed(copy, found, put, part):
    path = copy / "bcd-new.cap"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace(found, put), encoding="utf-8")
    assert part in lacks("bcd-new", copy)
