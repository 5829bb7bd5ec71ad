"""A capture's text, and what is wrong with one."""

from pathlib import Path

import pytest

from daq.gauges.capture import parse

CAPTURES = sorted((Path(__file__).parent / "captures").glob("*.cap"))
HEAD = "cable: USB adapter\nnotes: none: at all\n\n"


def test_header_and_pieces():
    made = parse(HEAD + "2b 30\n0D\npause\n\n31\n  pause\n", "one.cap")
    assert made.header == {"cable": "USB adapter", "notes": "none: at all"}
    assert made.pieces == (b"+0\r", b"1", b"")


@pytest.mark.parametrize("path", CAPTURES, ids=lambda path: path.stem)
def test_each_capture_in_the_folder(path):
    made = parse(path.read_text(encoding="utf-8"), path.name)
    assert made.header["cable"]
    assert any(made.pieces)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("cable: USB\n2b 30\n", "one.cap: found no empty line; allowed: one between header and"),
        ("cable: USB\n2b 30\n\n31\n", "one.cap:2: found '2b 30'; allowed: such as"),
        (HEAD + "2b\n3\n", "one.cap:5: found '3'; allowed: bytes such as"),
        (HEAD + "pauses\n", "one.cap:4: found 'pauses'; allowed: bytes such as"),
    ],
)
def test_what_is_no_capture_is_told(text, words):
    with pytest.raises(ValueError, match=r"one\.cap") as caught:
        parse(text, "one.cap")
    assert str(caught.value).startswith(words)
