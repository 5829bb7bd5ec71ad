"""A gauge learned at its port, on a real terminal: the file reads it as its own face shows it."""

import io
import os
import threading
from dataclasses import replace

import pytest

from daq.cli import parser
from daq.gauges.learn.command import learn
from daq.gauges.learn.live import answers
from daq.virtual.talk import OnKey, OnRequest, StartedStream, Streaming
from tests.gauges.learn_bench import QUICK, Bench
from tests.gauges.learn_classes import CLASSES
from tests.gauges.learn_made import Seen, of_model
from tests.rigs.shelf import SHELF
from tests.words import en

ALWAYS = {"text-key-thrice", "field-bus", "bcd-packed"}
MODELS = {k: m for k, m in {**SHELF, **CLASSES}.items() if k != "bits-complement"}
EACH = [n if n in ALWAYS else pytest.param(n, marks=pytest.mark.long) for n in MODELS]
"""All of the shelf and of the further classes in the long run: both units, all manners of talk."""


def arguments(model, port, *more):
    given = ["gauge", "learn", "--port", str(port), "--travel", f"{model.travel_mm} mm", *more]
    if isinstance(model.talk, OnRequest | StartedStream):
        given += ["--request", "".join(f"\\x{byte:02x}" for byte in model.talk.request)]
        given += ["--baud", str(model.line.baud)]
    return parser().parse_args([*given, *(["--key"] if isinstance(model.talk, OnKey) else [])])


def patience(model):
    """A gauge is silent between two frames, however hurried the test is."""
    every_s = model.talk.interval_s if isinstance(model.talk, Streaming) else 0.0
    return replace(QUICK, silent_s=max(QUICK.silent_s, 2.0 * every_s))


@pytest.mark.parametrize("key", EACH)
def test_the_file_reads_the_gauge(tmp_path, key):
    model, port = MODELS[key], tmp_path / "gauge"
    with Bench(model, port) as bench:
        made = answers.learn(
            arguments(model, port), bench, patience=patience(model), opener=bench.open
        )
    config = made.config
    assert (config.line.baud, config.counts_up) == (model.line.baud, model.counts_up)
    assert config.talk.mode == (
        "asks"
        if isinstance(model.talk, OnRequest)
        else "key"
        if isinstance(model.talk, OnKey)
        else "streams"
    )
    assert config.resolution == pytest.approx(model.wire.scales[model.unit].size_mm(model.unit))
    assert _bare(of_model(model), made).wrong(config.frame) is None


def _bare(seen, made):
    """The gauge without the echo of what it is asked, which its file says apart."""
    echo = made.config.talk.asked if made.config.talk.echo else b""
    return Seen(
        lambda place: seen.frame(place).removeprefix(echo),
        seen.face, seen.paused, seen.travel_mm, seen.places_mm, seen.fresh_mm,
    )  # fmt: skip


class Typist(io.StringIO):
    """What is printed is read, and answered: a question is what no line ends."""

    def __init__(self, bench, keyboard):
        super().__init__()
        self._bench, self._keyboard = bench, keyboard

    def write(self, text):
        if text.startswith("Push"):
            self._bench.gauge.set(1.0)
        if text.endswith(" "):
            threading.Timer(0.6, self._answer, [text]).start()
        return super().write(text)

    def _answer(self, text):
        face = "face show" in text or "does it show" in text
        os.write(self._keyboard, (self._bench.gauge.face() if face else "").encode() + b"\n")


def test_a_whole_file_is_written_at_a_terminal_with_what_it_was_learned_from(tmp_path, monkeypatch):
    model, port, path = SHELF["text-plain"], tmp_path / "gauge", tmp_path / "arm.toml"
    args = arguments(model, port, "-o", str(path), "--baud", "9600")
    reads, writes = os.pipe()
    with os.fdopen(reads) as typed, Bench(model, port) as bench:
        monkeypatch.setattr("sys.stdin", typed)
        out, err = Typist(bench, writes), io.StringIO()
        code = learn(args, en, out, err)
    os.close(writes)
    assert (code, err.getvalue()) == (0, "")
    assert 'layout = ["sign", "number", "blanks", "unit"]' in path.read_text(encoding="utf-8")
    kept = path.with_suffix(".cap").read_text(encoding="utf-8")
    assert "faces: -0.350 mm, 0.650 mm" in kept
    assert kept.rstrip().endswith("mm")
    assert "Still missing in it: name" in out.getvalue()


def test_a_port_that_is_not_there_is_said_before_anything_is_asked(tmp_path):
    out, err = io.StringIO(), io.StringIO()
    assert learn(arguments(SHELF["text-plain"], tmp_path / "none"), en, out, err) == 2
    assert "is the cable plugged in?" in err.getvalue()
    assert out.getvalue() == ""


def test_no_file_is_written_over(tmp_path):
    path = tmp_path / "arm.toml"
    path.write_text("", encoding="utf-8")
    err = io.StringIO()
    args = arguments(SHELF["text-plain"], tmp_path / "none", "-o", str(path))
    assert learn(args, en, io.StringIO(), err) == 2
    assert "allowed: a name that is not taken" in err.getvalue()


@pytest.mark.parametrize("name", ["nowhere/arm.toml", "arm.toml"])
def test_what_could_not_be_written_is_said_before_anything_is_asked(tmp_path, name):
    (tmp_path / "arm.cap").write_text("", encoding="utf-8")
    out, err = io.StringIO(), io.StringIO()
    args = arguments(SHELF["text-plain"], tmp_path / "none", "-o", str(tmp_path / name))
    assert learn(args, en, out, err) == 2
    assert (out.getvalue(), err.getvalue().count("allowed: ")) == ("", 1)
