"""The second verifier takes a sound export for sound, and nothing else."""

import ast
import io
import json
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from daq.ledger.commands import export
from tests.house.conftest import ROOT
from tests.independent.verify_export import Unsound, check
from tests.ledger.conftest import make_filled
from tests.words import en

SCRIPT = ROOT / "tests" / "independent" / "verify_export.py"


@pytest.fixture(scope="module")
def exported(tmp_path_factory):
    folder = tmp_path_factory.mktemp("ledger")
    heads = make_filled(folder, 6)
    out = io.StringIO()
    assert export(folder, out, en, evidence=True) == 0
    return out.getvalue().splitlines(), heads


def run(path, *noted):
    command = [sys.executable, str(SCRIPT), str(path), *noted]
    return subprocess.run(command, check=False, capture_output=True, text=True)


def test_it_shares_no_code_and_is_short():
    text = SCRIPT.read_text(encoding="utf-8")
    modules = {
        name.name.split(".")[0]
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.Import)
        for name in node.names
    }
    modules |= {n.module for n in ast.walk(ast.parse(text)) if isinstance(n, ast.ImportFrom)}
    assert modules <= set(sys.stdlib_module_names)
    assert len(text.splitlines()) <= 100


def test_a_sound_export_and_its_noted_heads(exported, tmp_path):
    lines, heads = exported
    path = tmp_path / "export.jsonl"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    done = run(path, f"7:{heads[-1]}", f"2:{heads[1][:8]}")
    said = f"sound: 7 rows, 1 chunks of evidence, none altered; head {heads[-1]}\n"
    assert (done.returncode, done.stdout) == (0, said)
    assert run(path, f"7:{heads[0]}").returncode == 3
    assert run(path, f"8:{heads[-1]}").returncode == 3
    assert run(path, "8").returncode == 2
    assert run(tmp_path / "none").returncode == 2


@pytest.mark.parametrize("gone", range(8))
def test_a_line_left_out_shows(exported, gone):
    lines, heads = exported
    left = lines[:gone] + lines[gone + 1 :]
    if gone == 7:  # without evidence an export is sound: the digests stay in the rows
        assert check(left, {}) == (7, heads[-1], 0)
        return
    with pytest.raises(Unsound):
        check(left, {7: heads[-1]})


@given(data=st.data())
def test_nothing_altered_is_called_sound(exported, data):
    lines, heads = exported
    at = data.draw(st.integers(0, len(lines) - 1))
    line = json.loads(lines[at])
    key = data.draw(st.sampled_from(sorted(line)))
    if isinstance(line[key], int):
        line[key] = data.draw(st.integers(0, 9).filter(lambda seq: seq != line[key]))
    else:
        place = data.draw(st.integers(0, len(line[key]) - 1))
        letter = data.draw(st.sampled_from("0123456789abcdef{}").filter(line[key][place].__ne__))
        line[key] = line[key][:place] + letter + line[key][place + 1 :]
    with pytest.raises((Unsound, ValueError)):
        check([*lines[:at], json.dumps(line), *lines[at + 1 :]], {7: heads[-1]})


@given(order=st.permutations(range(8)).filter(lambda order: order != list(range(8))))
def test_another_order_is_not_sound(exported, order):
    lines, _ = exported
    with pytest.raises((Unsound, ValueError)):
        check([lines[i] for i in order], {})
