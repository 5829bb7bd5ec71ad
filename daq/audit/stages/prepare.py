"""The preparation card: locked out, the gauge confirmed."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from daq.audit import events as e
from daq.audit.anytime import restart
from daq.audit.facts import first_read, kind_of
from daq.audit.folding import go
from daq.audit.held.sweeps import Sweeps
from daq.audit.input import Input, Refused, head_only
from daq.audit.parts import Anew, Next
from daq.audit.rings import Mark, clamped, lies
from daq.audit.safe import loose_first, unsafe
from daq.audit.setup import MOST_SWUNG
from daq.audit.stage import Handler, Shows, Stage, Took
from daq.audit.state import Job
from daq.audit.views.alike import alike
from daq.audit.views.by_kind import lock_out, support_first
from daq.audit.views.common import FIRST
from daq.audit.views.marks import mark_fields
from daq.audit.views.step import Action, Choice, Field, Wording
from daq.settings import quoted
from daq.squaring.learned import Learned
from daq.squaring.story import Happened
from daq.units import UnitError, parse
from daq.words import Said, said


@dataclass(frozen=True)
class Confirm:
    """The payload of `prepared`: the number read off the gauge, and whether the ram moved.

    `last_two`: what it ends with, typed instead of picked; of a bar's gauges, a space between.
    `ram_angle`: how far the ram is swung now, anticlockwise seen from above; nothing: as the
    machine's file says. `touched`: the gauge or the head was, while the service was off;
    `cracked`: so were the bolts that were to be cracked when it went off. `ring`, `mark`: which
    of the shop's rings lies on the table, and where its mark points, if that was looked at.
    `spindle`: where the spindle's mark points, the arm in front.
    """

    serial_number: str = ""
    last_two: str = ""
    ram_moved: bool = False
    ram_angle: str = ""
    touched: bool = False
    cracked: bool = False
    ring: str = ""
    mark: Mark = ""
    spindle: Mark = ""


def prepared(job: Job, given: Input) -> tuple[e.Data, ...]:
    """The card was read, and the number on the gauge is the file's."""
    card = given.payload(Confirm)
    head_only(job, ram_moved=card.ram_moved, ram_angle=card.ram_angle, cracked=card.cracked)
    _check_number(job, card.serial_number.strip(), card.last_two.strip())
    anew = _meanwhile(job, card.touched, card.cracked)
    number = job.setup.gauge.serial_number
    done = e.Prepared(number, _new_head(job, card), anew is not None, anew, card.cracked)
    # The spindle's head points another way in a ram that was swung.
    arm = None if card.ram_moved else clamped(job, card.spindle)
    return (replace(done, laid=lies(job, card.ring, card.mark), clamped=arm),)


def _check_number(job: Job, picked: str, typed: str) -> None:
    """Whoever has read the number says so by a pick or by its end.

    Raises:
        Refused: it is another one, or neither was given.
    """
    known = repr(job.setup.gauge.serial_number)
    if not (picked or typed):
        raise Refused("number-unread")
    if picked and picked != job.setup.gauge.serial_number:
        raise Refused("other-gauge", found=quoted(picked), known=known)
    if typed and not _are_ends(typed, [gauge.serial_number for gauge in job.setup.gauges]):
        raise Refused("other-gauge", found=quoted(f"…{typed}"), known=known)


def _are_ends(typed: str, numbers: Sequence[str]) -> bool:
    """Whether each number ends so, two characters or more of it; of one, spaces do not count."""
    given = typed.casefold().split() if len(numbers) > 1 else [_bare(typed)]
    return len(given) == len(numbers) and all(
        len(end) >= min(2, len(_bare(number))) and _bare(number).endswith(end)
        for end, number in zip(given, numbers, strict=True)
    )


def _bare(text: str) -> str:
    return "".join(text.casefold().split())


def _new_head(job: Job, card: Confirm) -> Learned | None:
    """What is known of a head whose ram or turret was moved: the file's, at its angle now."""
    if not card.ram_moved:
        return None
    machine = job.setup.machine
    if not card.ram_angle.strip():
        return machine.prior()
    try:
        angle = parse(card.ram_angle, "angle")
    except UnitError as error:
        found = quoted(card.ram_angle)
        raise Refused("ram-angle-no-angle", found=found) from error
    if abs(angle) > MOST_SWUNG:
        found = quoted(card.ram_angle)
        raise Refused("ram-angle-too-far", found=found)
    return machine.prior(angle)


def _meanwhile(job: Job, touched: bool, cracked: bool) -> Anew | None:
    """Where to go on when the gauge or the head was touched, or bolts cracked, while it was off.

    A head that is being brought closer is brought closer still: no sweep has read it yet.

    Raises:
        Refused: the service was not off, or nobody had been told to crack bolts.
    """
    anew = job.anew
    if not (touched or cracked):
        return None
    if anew is None or anew.why != "restart":
        raise Refused("touched-while-watched")
    if cracked and not anew.maybe:
        raise Refused("cracked-untold")
    if anew.next.step in ("closer", "arm-out-closer"):
        return anew
    if cracked:
        return replace(anew, next=Next("check", anew.maybe[0]))
    loose = loose_first(job)
    to = first_read(job) if loose is None else Next("check", loose)
    return replace(anew, next=to, maybe=())


def _says(job: Job) -> Wording:
    """The card: made safe, the right gauge on."""
    left = unsafe(job)
    loose = left.loose if left is not None else ()
    held = tuple(said("keep-supported", bolts=bolts) for bolts in loose)
    if job.anew is not None and job.anew.why == "restart":
        return Wording(said("screen-was-off"), said("screen-was-off-ask", of=kind_of(job)), held)
    if job.setup.second_gauge is not None:
        return Wording(said("make-safe-bar"), said("read-numbers"), held)
    against = job.check.against if job.check is not None else None
    if against is not None:
        # No card of what is done while there is still power comes before this one.
        held = (said("neutral-first"), said("touched-since", day=against.day), *held)
    return Wording(said("make-safe"), said("read-number"), held)


def _number(job: Job) -> tuple[Field, Field]:
    """The number read off the gauge, or off both of a bar's, among two that look alike; its end."""
    gauges = job.setup.gauges
    rows = zip(*(alike(gauge.serial_number, job.id) for gauge in gauges), strict=True)
    choices = tuple(
        Choice(row[0], said("numbers-are", numbers=tuple(said("name", name=n) for n in row)))
        for row in rows
    )
    picked, typed = (
        (said("number-read"), said("number-ends"))
        if len(gauges) == 1
        else (said("numbers-read"), said("numbers-end"))
    )
    return (
        Field("serial_number", picked, "choice", choices=choices),
        Field("last_two", typed, required=False, instead_of="serial_number"),
    )


def _buttons(job: Job) -> list[Action]:
    """The card was read; which number stands on the gauge is asked, not said."""
    number: tuple[Field, ...] = _number(job)
    if job.anew is not None and job.anew.why == "restart":
        return _prepare_anew(job, number)
    number = (*number, *mark_fields(job))
    safe = Action("prepared", said("safe-read"), primary=True, fields=number)
    if job.check is not None:
        return [safe]
    ram = Field("ram_angle", said("ram-swung-by"), required=False)
    moved = Action("prepared", said("ram-moved"), {"ram_moved": True}, fields=(*number, ram))
    return [safe, moved]


def _prepare_anew(job: Job, number: tuple[Field, ...]) -> list[Action]:
    """After a restart: what may have been touched or cracked meanwhile is asked."""
    anew = job.anew
    axes = () if anew is None or anew.next.step == "closer" else anew.maybe
    maybe = tuple(said("name", name=job.setup.machine.axis(axis).bolts) for axis in axes)
    right = said("untouched-tight", bolts=maybe) if maybe else said("untouched")
    touched = said("touched-tight", bolts=maybe) if maybe else said("touched", of=kind_of(job))
    asked = [
        Action("prepared", right, primary=True, fields=number),
        Action("prepared", touched, {"touched": True}, fields=number),
    ]
    if maybe:
        cracked = said("are-cracked", bolts=maybe)
        asked.append(Action("prepared", cracked, {"cracked": True}, fields=number))
    return asked


def _cautions(job: Job) -> tuple[Said, ...]:
    machine = job.setup.machine
    usual = (*lock_out(machine), said("own-supply"), FIRST)
    if job.check is not None:
        return (*job.check.cautions, *usual)
    return (*support_first(*machine.axes.values()), *usual)


def _prepared(job: Job, data: e.Prepared) -> Job:
    """The card was read: the arm goes in, and what a restart left in doubt is known."""
    # Only what a restart left untouched stands as it was set.
    stood = job.anew is not None and job.anew.why == "restart" and not data.touched
    gauge = job.gauge if stood else job.gauge.away()
    after = replace(go(job, data.next), arm_in=True, gauge=gauge)
    after = replace(after, sweeps=_marked(job, data))
    if data.learned is not None:
        head = replace(job.head.knowing(data.learned), ram_moved=True, named=None, swung=0.0)
        after = replace(after, head=head)
    if data.anew is None:
        return after
    if data.cracked:
        after = replace(after, loose=job.loose | set(data.anew.maybe))
    return replace(
        after,
        anew=data.anew,
        reads=replace(job.reads, why=said("touched-while-off")),
        sweeps=job.sweeps.spoilt(loosened=data.cracked),
        head=after.head.then(Happened("unknown")),
    )


def _marked(job: Job, data: e.Prepared) -> Sweeps:
    """What bears a mark, as the card tells it, or as it was where nothing can have turned it.

    Nobody asks after a restart; a ring stays where it lies while the arm alone was out.
    """
    sweeps, why = job.sweeps, "" if job.anew is None else job.anew.why
    if why == "restart":
        return sweeps.arm_out() if data.touched else sweeps
    laid = data.laid or (sweeps.laid if why == "again" else None)
    return replace(sweeps, laid=laid, clamped=data.clamped)


STAGES = (
    Stage(
        "prepare",
        shows=Shows("prepare", _says, _buttons, cautions=_cautions),
        commands={"prepared": Handler(prepared), "restarted": Handler(restart.unread)},
        took={e.Prepared: Took(_prepared, undoable=True)},
        heeds_zero=False,
    ),
)
