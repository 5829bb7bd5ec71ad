"""Why a stop-at, or a shim, is what it is: what was thought of, and what each makes of it."""

from daq.audit.facts import decimals, shown_face, unit_of
from daq.audit.parts import Because, Share, StopAt
from daq.audit.state import Job
from daq.audit.views.figures import WIDE, length, with_unit
from daq.audit.views.places import at
from daq.audit.views.shims import say_thickness
from daq.words import OPPOSITE, OTHER, Figure, Position, Said, Shown, said


def why(job: Job, stop: StopAt | None) -> tuple[Said, ...]:
    """The lines, each with its number; none where there is no stop-at."""
    because = None if stop is None else stop.because
    if stop is None or because is None:
        return ()
    bent = abs(because.bend_mm) >= job.setup.gauge.resolution
    return (
        _first(job, stop),
        _lean(job, stop, because),
        _cross(job, stop, because),
        _tightening(job, stop, because),
        *(() if because.rest is None else (_rest(job, stop, because.rest),)),
        *((said("why-bend", makes=_made(job, because.bend_mm)),) if bent else ()),
        *_shelf(job, because),
    )


def _first(job: Job, stop: StopAt) -> Said:
    if stop.shim is not None:
        return said("why-shim", thickness=say_thickness(job, stop.shim))
    base, end = (shown_face(job, mm) for mm in (stop.base_face_mm, stop.stop_face_mm))
    return said("why-base", base=with_unit(base), at=at(stop.position), stop=with_unit(end))


def _lean(job: Job, stop: StopAt, because: Because) -> Said:
    """How far the axis is from where it is to be, and what the gauge, or the shim, sees of it."""
    unit, machine, of = unit_of(job), job.setup.machine, because.lean
    # With a lean that is wanted, or limits that differ, it is not the lean itself.
    is_all = abs(stop.lean * machine.diameter - of.across_mm) < 1e-9
    side = _side(stop, of)
    end = said("low-end", side=side) if is_all else said("too-low-end", side=side)
    by, sees, makes = _across(job, of.across_mm), Figure(because.sees, 2), _made(job, of.makes_mm)
    spacing = machine.axis(stop.axis).adjust.bolt_spacing
    if stop.shim is not None and spacing is not None:
        apart = length(spacing, unit, WIDE)
        return said("why-shim-lean", end=end, by=by, spacing=apart, sees=sees, makes=makes)
    return said(
        "why-lean",
        end=end,
        by=by,
        pivot=length(abs(because.pivot_mm), unit, -2),
        where="beyond" if because.pivot_mm >= 0.0 else "this-side",
        doubt=length(2.0 * because.pivot_doubt_mm, unit, -2),
        sees=sees,
        makes=makes,
    )


def _cross(job: Job, stop: StopAt, because: Because) -> Said:
    axis = job.setup.machine.axis(OTHER[stop.axis]).say
    if not because.cross.across_mm:
        return said("why-no-cross", axis=axis)
    by, end, makes = _adds(job, stop, because.cross)
    return said("why-cross", axis=axis, by=by, end=end, makes=makes)


def _tightening(job: Job, stop: StopAt, because: Because) -> Said:
    doubt = _across(job, 2.0 * because.tightening_doubt_mm)
    if not because.tightening.across_mm:
        return said("why-no-tightening", doubt=doubt)
    by, end, makes = _adds(job, stop, because.tightening)
    return said("why-tightening", by=by, end=end, doubt=doubt, makes=makes)


def _rest(job: Job, stop: StopAt, rest: Share) -> Said:
    if not rest.across_mm:
        return said("why-no-rest")
    by, end, makes = _adds(job, stop, rest)
    return said("why-rest", by=by, end=end, makes=makes)


def _shelf(job: Job, because: Because) -> tuple[Said, ...]:
    """What there is no shim for."""
    of = because.shelf
    return () if of is None else (said("why-shelf", makes=_made(job, of.makes_mm)),)


def _adds(job: Job, stop: StopAt, of: Share) -> tuple[Said, Said, Said]:
    """How much lean is still to come, toward which side, and what is left for it."""
    end = said("low-end", side=_side(stop, of))
    return _across(job, of.across_mm), end, _made(job, of.makes_mm)


def _side(stop: StopAt, of: Share) -> Position:
    return stop.position if of.across_mm > 0.0 else OPPOSITE[stop.position]


def _across(job: Job, mm: float) -> Said:
    return with_unit(Shown(abs(mm), unit_of(job), decimals(job) + 1))


def _made(job: Job, mm: float) -> Said:
    """With one decimal more than the face has: several of them are added up."""
    return with_unit(Shown(mm, unit_of(job), decimals(job) + 1, plus=True))
