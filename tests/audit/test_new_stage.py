"""A new stage is two edits: its file or folder, and its sentences. Nothing else names it."""

import json
import os
import subprocess
import sys
from pathlib import Path
from shutil import copytree, ignore_patterns

import pytest

import daq
import web
from tests.house.conftest import ROOT

STAGE = '''
"""Before anybody signs: the vise's keys are wiped and put back."""

from dataclasses import dataclass, replace

from daq.audit.input import Input, Refused
from daq.audit.events import Data, OfStage
from daq.audit.folding import go
from daq.audit.parts import Next
from daq.audit.stage import Handler, Shows, Stage, Took
from daq.audit.state import Job
from daq.audit.views.step import Action, Wording
from daq.words import Said, said


@dataclass(frozen=True)
class Keys:
    """So many were wiped."""

    wiped: int


@dataclass(frozen=True)
class KeysWiped(OfStage):
    """The keys are wiped and back."""

    wiped: int
    next: Next


@dataclass(frozen=True)
class Wiped:
    """The payload of `wiped`."""

    count: int


def _wiped(job: Job, given: Input) -> tuple[Data, ...]:
    count = given.payload(Wiped).count
    if count < 1:
        raise Refused("keys-none-wiped", found=count)
    return (KeysWiped(count, Next("sign")),)


def _change(job: Job, data: KeysWiped) -> Job:
    return replace(go(job, data.next), own={**job.own, "keys": Keys(data.wiped)})


def _says(job: Job) -> Wording:
    return Wording(said("keys-wipe"), said("keys-why"))


def _buttons(job: Job) -> list[Action]:
    return [Action("wiped", said("keys-wiped"), {"count": 2}, primary=True)]


def _cautions(job: Job) -> tuple[Said, ...]:
    return (said("keys-caution"),)


STAGES = (
    Stage(
        "keys",
        before="sign",
        shows=Shows("clear", _says, _buttons, cautions=_cautions),
        commands={"wiped": Handler(_wiped)},
        took={KeysWiped: Took(_change, told=said("keys-were-wiped"))},
        heeds_zero=False,
    ),
)
'''
SENTENCES = """
keys-wipe = Wipe the vise's keys and put them back.
keys-why = A chip under a key leans the vise.
keys-wiped = Keys wiped and back
keys-caution = Mind the edges.
keys-were-wiped = the keys were wiped
keys-none-wiped = keys: found { $found }; allowed: at least 1
"""
LIVED = """
import json, sys
from daq.audit.recompute import differences
from daq.screens.told import told
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, mill
from tests.words import en

m = Machinist(Bench(setup_of()), RigidHead(mill(), 0.1, -0.2)).start().work("keys")
b = m.bench
page = b.console
refused = en(b.refused("wiped", {"count": 0}))
m.step()
kept = b.job.own["keys"].wiped
stands = b.job.step
b.do("again", {"why": "a chip"})
m.work("keys").work("sign")
m.finish(done_by="T", last_good="2026-01-05", disposition="none")
rows = [e for e in b.events if e.type == "KeysWiped"]
print(json.dumps({
    "title": page["title"], "caution": page["cautions"], "refused": refused, "kept": kept,
    "part": [each["key"] for each in page["steps"] if each["state"] == "now"],
    "stands": stands, "wiped": len(rows), "told": en(told(rows[0])),
    "signed": b.state.last.signed is not None,
    "differ": len(list(differences(b.events, b.chunks.__getitem__))),
}))
"""


PARTS, TABLE = STAGE.lstrip().split("\nSTAGES", 1)
OF_PARTS = '''
"""Before anybody signs: the vise's keys are wiped and put back."""

from daq.audit.stage import Handler, Shows, Stage, Took
from daq.audit.stages.keys.parts import KeysWiped, _buttons, _cautions, _change, _says, _wiped
from daq.words import said

STAGES'''


@pytest.fixture(scope="module", params=["file", "folder"])
def tree(tmp_path_factory, request):
    """The product with one stage and six sentences more."""
    folder = tmp_path_factory.mktemp("tree")
    for package in (daq, web):
        home = Path(package.__file__).parent
        copytree(home, folder / home.name, ignore=ignore_patterns("__pycache__"))
    stages = folder / "daq/audit/stages"
    if request.param == "file":
        (stages / "keys.py").write_text(STAGE.lstrip(), encoding="utf-8")
    else:
        (stages / "keys").mkdir()
        (stages / "keys/parts.py").write_text(PARTS, encoding="utf-8")
        (stages / "keys/__init__.py").write_text(OF_PARTS.lstrip() + TABLE, encoding="utf-8")
    with (folder / "daq/says/en.ftl").open("a", encoding="utf-8") as sentences:
        sentences.write(SENTENCES)
    return folder


def test_it_is_shown_pressed_recorded_told_and_rechecked(tree):
    env = {**os.environ, "PYTHONPATH": f"{tree}{os.pathsep}{ROOT}", "PYTHONDONTWRITEBYTECODE": "1"}
    command = [sys.executable, "-W", "error::UserWarning", "-c", LIVED]
    done = subprocess.run(command, check=False, env=env, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout) == {
        "title": "Wipe the vise's keys and put them back.",
        "caution": ["Mind the edges."],
        "refused": "keys: found 0; allowed: at least 1",
        "kept": 2,
        "part": ["clear"],
        "stands": "sign",
        "wiped": 2,
        "told": "the keys were wiped",
        "signed": True,
        "differ": 0,
    }
