"""A gauge learned at its port: the written file reads it as its own face shows it."""

import io
import tomllib

import pytest

from daq.cli import parser
from daq.gauges import frames
from daq.gauges.config import from_table
from daq.gauges.errors import LearnError
from daq.gauges.learn.command import learn
from daq.gauges.learn.live import answers
from daq.units import MM_PER
from daq.virtual.talk import OnKey, OnRequest
from tests.gauges.learn_bench import QUICK, TODAY, Bench
from tests.rigs.shelf import SHELF
from tests.words import en

LEARNED = [
    "text-key-thrice",
    "bcd-hex-asked",
    *(
        pytest.param(key, marks=pytest.mark.long)
        for key in (
            "bits-inch",
            "text-plain",
            "text-trailing-sign",
            "text-inch-asked",
            "text-lever",
            "bcd-packed",
        )
    ),
]
"""Both units, all shapes, all manners of talk, also without the long ones; the rest of the shelf
is learned from its bytes alone in test_learn_proposals.py, which takes no waiting."""


def arguments(model, port, *more):
    push = min(1.0, model.travel_mm * 0.6)
    given = ["gauge", "learn", "--port", str(port), "--push", f"{push} mm", "--yes"]
    given += ["--travel", f"{model.travel_mm} mm", "--serial-number", "1024-X"]
    given += ["--minus-at-rest", "yes" if model.counts_up else "no", *more]
    return parser().parse_args(given), push


def decoded(table, frame):
    decoder = frames.decoder(table["frame"], "learned")
    decoder.gap()
    found = []
    for _ in range(3):
        found += decoder.feed(frame)
        decoder.gap()
        found += decoder.feed(b"")
    return found[-1]


@pytest.mark.parametrize("key", LEARNED)
def test_the_written_file_reads_the_gauge(tmp_path, key):
    model, port = SHELF[key], tmp_path / "gauge"
    asks = isinstance(model.talk, OnRequest)
    more = ["--request", model.talk.request.decode()] if asks else []
    more += ["--key"] if isinstance(model.talk, OnKey) else []
    args, push = arguments(model, port, *more)
    with Bench(key, port, push) as bench:
        text = answers.learn(args, bench, TODAY, patience=QUICK, opener=bench.open)
        table = tomllib.loads(text)
        config = from_table(table, key)
        assert (config.line.baud, config.line.bits) == (model.line.baud, model.line.bits)
        assert config.line.parity == model.line.parity
        assert config.counts_up == model.counts_up
        assert config.serial_number == "1024-X"
        assert (config.talk.mode == "asks") == asks
        size = model.wire.scales[model.unit].size_mm(model.unit)
        assert config.resolution == pytest.approx(size)
        for compression in (0.0, 0.2 * push, push, 0.9 * model.travel_mm):
            bench.gauge.set(compression)
            found = decoded(table, bench.gauge.frame())
            way = 1.0 if model.counts_up else -1.0
            shown = round(way * (compression - model.zero_mm) / size) * size
            assert found.value * MM_PER[found.unit] == pytest.approx(shown, abs=1e-9)


def test_a_port_where_nothing_comes_is_said(tmp_path):
    model = SHELF["text-inch-asked"]
    args, push = arguments(model, tmp_path / "gauge", "--request", "never", "--baud", "9600")
    with Bench("text-inch-asked", tmp_path / "gauge", push) as bench:
        quick = bench.hurried(QUICK)
        with pytest.raises(LearnError, match="--request"):
            answers.learn(args, bench, TODAY, patience=quick, opener=bench.open)
        assert "It answers none of the requests." in bench.says


def test_a_port_that_is_not_there_ends_with_2(tmp_path):
    args, _ = arguments(SHELF["text-plain"], tmp_path / "none")
    out, err = io.StringIO(), io.StringIO()
    assert learn(args, en, out, err) == 2
    assert "is the cable plugged in?" in err.getvalue()


def test_no_file_is_written_over(tmp_path):
    path = tmp_path / "arm.toml"
    path.write_text("", encoding="utf-8")
    args, _ = arguments(SHELF["text-plain"], tmp_path / "none", "-o", str(path))
    err = io.StringIO()
    assert learn(args, en, io.StringIO(), err) == 2
    assert "allowed: a name that is not taken" in err.getvalue()
