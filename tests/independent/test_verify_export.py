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
from tests.independent.verify_export import NoExport, Unsound, check, verified
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


def test_it_shares_no_code_and_is_read_in_one_sitting():
    text = SCRIPT.read_text(encoding="utf-8")
    modules = {
        name.name.split(".")[0]
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.Import)
        for name in node.names
    }
    modules |= {n.module for n in ast.walk(ast.parse(text)) if isinstance(n, ast.ImportFrom)}
    assert modules <= set(sys.stdlib_module_names)
    assert len(text.splitlines()) <= 300


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
        check(left, [(7, heads[-1])])


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
    with pytest.raises((Unsound, NoExport)):
        check([*lines[:at], json.dumps(line), *lines[at + 1 :]], [(7, heads[-1])])


@given(order=st.permutations(range(8)).filter(lambda order: order != list(range(8))))
def test_another_order_is_not_sound(exported, order):
    lines, _ = exported
    with pytest.raises((Unsound, NoExport)):
        check([lines[i] for i in order], {})


RFC_8032 = [
    (
        "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
        "",
        "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701c"
        "f9b46bd25bf5f0595bbe24655141438e7a100b",
    ),
    (
        "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
        "72",
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0"
        "f11d8c387b2eaeb4302aeeb00d291612bb0c00",
    ),
    (
        "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
        "af82",
        "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984"
        "dc6594a7c15e9716ed28dc027beceea1ec40a",
    ),
]
"""RFC 8032, 7.1, tests 1 to 3: public key, message, signature."""


@pytest.mark.parametrize(("key", "text", "signature"), RFC_8032)
def test_its_signatures_are_those_of_the_standard(key, text, signature):
    key, text, signature = map(bytes.fromhex, (key, text, signature))
    assert verified(key, signature, text)
    assert not verified(key, signature, text + b"x")
    assert not verified(key, signature[:-1] + bytes([signature[-1] ^ 1]), text)
    assert not verified(bytes([key[0] ^ 1]) + key[1:], signature, text)
    assert not verified(key, signature[:32] + b"\xff" * 32, text)  # no number below the order
