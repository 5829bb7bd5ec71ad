"""The fold written down and read again: nothing of it is lost, wherever it is cut."""

import json
from dataclasses import replace

import pytest

from daq.audit import seal
from daq.audit.apply import fold
from daq.audit.seal import Unsealed
from daq.audit.state import Shop
from tests.audit.pupil import audit, head_at, taught_bench


@pytest.fixture(scope="module")
def b():
    """Four audits on a machine: signed, given up with an axis loose, practice, still open."""
    made = taught_bench()
    audit(made, head_at(0.3, 0.2)).work("move")
    made.do("abandon", {"why": "called away"})
    made.do("made-safe")
    audit(made, head_at(0.3, 0.2), "practice").finish()
    audit(made, head_at(-0.4, 0.3), ram_moved=True).work("tighten")
    return made


def rows_of(b):
    return lambda audit: (event for event in b.events if event.audit == audit)


def test_after_every_row_the_state_comes_back_from_its_text_and_the_open_audits_rows(b):
    shop, opened = Shop(), 0
    for event in b.events:
        shop = fold([event], shop)
        what = seal.decode(seal.encode(seal.sealed(shop)))
        assert what == seal.sealed(shop)
        assert seal.restored(what, event.seq, rows_of(b)) == shop
        opened += bool(what.open)
    assert 0 < opened < len(b.events)


def test_the_text_does_not_grow_with_what_an_open_audit_could_take_back(b):
    """An open audit holds itself as it was before each step: none of that is written down."""
    what = seal.sealed(b.shop)
    job = b.shop.machine("mill").job
    assert what.open == {"mill": job.id}
    assert '"trail"' not in seal.encode(what)


def test_rows_of_an_open_audit_that_are_missing_are_noticed(b):
    what, last = seal.sealed(b.shop), b.events[-1].seq
    job = b.shop.machine("mill").job
    first = next(e for e in b.events if e.audit == job.id)
    for rows in ([], [first], [e for e in b.events if e.audit == job.id][:-1]):
        with pytest.raises(Unsealed, match="is not found again"):
            seal.restored(what, last, lambda _, rows=rows: iter(rows))


def test_a_state_is_read_whatever_limits_hold_today(b):
    """What a file may say today says nothing about what it said then."""
    machine = b.shop.machine("mill")
    setup = replace(machine.last.setup, machine=replace(machine.last.setup.machine))
    object.__setattr__(setup.machine, "sweep_radius", 0.5)
    state = replace(machine, last=replace(machine.last, setup=setup))
    shop = replace(b.shop, machines={"mill": state})
    assert seal.decode(seal.encode(seal.sealed(shop))) == seal.sealed(shop)


@pytest.mark.parametrize(
    "text", ["", "{", "[]", "{}", '{"open":{},"shop":{"gauges":{},"machines":{"m":{"seq":1}}}}']
)
def test_a_text_that_is_no_state_is_told(text):
    with pytest.raises(Unsealed, match="cannot be read"):
        seal.decode(text)


def test_a_state_of_another_release_is_told(b):
    table = json.loads(seal.encode(seal.sealed(b.shop)))
    table["shop"]["machines"]["mill"]["mood"] = "good"
    with pytest.raises(Unsealed, match="mood"):
        seal.decode(json.dumps(table))
