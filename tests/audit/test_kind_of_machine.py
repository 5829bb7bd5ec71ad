"""What follows from the kind of machine a file tells of: all of it common practice, no source."""

from dataclasses import replace

import pytest

from daq.squaring.adjuster import Adjust
from daq.squaring.tightening import AfterCrash, Tighten
from tests.audit.conftest import setup_of

MACHINE = setup_of().machine


def adjusted(side="worm", nod="worm"):
    def axis(spec, kind):
        return replace(spec, adjust=Adjust(kind, bolt_spacing=200.0))

    return replace(MACHINE, side=axis(MACHINE.side, side), nod=axis(MACHINE.nod, nod))


@pytest.mark.parametrize(
    ("kind", "held_by"),
    [
        ("worm", "adjuster"),
        ("rack", "adjuster"),
        ("hand", "block"),
        ("none", "block"),
        ("shim", "sling"),
    ],
)
def test_what_holds_a_head_once_its_bolts_are_cracked(kind, held_by):
    machine = adjusted(nod=kind)
    assert machine.nod.held_by == held_by
    assert machine.held_by_bolts == (() if held_by == "adjuster" else ("nod",))


def test_both_axes_may_hang_in_their_bolts():
    assert adjusted("hand", "shim").held_by_bolts == ("side", "nod")


@pytest.mark.parametrize("z", ["knee", "quill", "powered"])
@pytest.mark.parametrize("drawbar", ["hand", "power"])
def test_what_needs_power_is_done_before_it_is_locked_out(z, drawbar):
    first = replace(MACHINE, z=z, drawbar=drawbar).while_powered
    assert ("height" in first) == (z == "powered")
    assert ("arm" in first) == (drawbar == "power")
    assert len(first) == (z == "powered") + (drawbar == "power")


def bolted(side=(), nod=(), crash=()):
    return replace(
        MACHINE,
        side=replace(MACHINE.side, bolts="the side bolts", tighten=Tighten(side)),
        nod=replace(MACHINE.nod, bolts="the nod bolts", tighten=Tighten(nod)),
        after_crash=AfterCrash(crash),
    )


@pytest.mark.parametrize(
    ("machine", "bolts"),
    [
        (bolted(), ("the side bolts", "the nod bolts")),
        (bolted(nod=("n1", "n2")), ("the side bolts", "n1", "n2")),
        (bolted(("s1", "s2"), ("n1", "n2")), ("s1", "s2", "n1", "n2")),
        (bolted(("left", "right"), ("left", "right")), ("the side bolts", "the nod bolts")),
        (bolted(nod=("n1", "n2"), crash=("ram", "turret")), ("ram", "turret")),
    ],
    ids=["by axis", "one axis's names", "names", "alike names", "the file's own"],
)
def test_what_a_wrench_is_put_on_after_a_crash(machine, bolts):
    assert machine.crash_bolts == bolts
