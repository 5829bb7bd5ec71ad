"""What was read, in words: touch test, readings, sweeps, pair checks, what they taught."""

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from daq.audit import events as e
from daq.audit.facts import unit_of
from daq.audit.held.head import HeadSeen
from daq.audit.parts import Added
from daq.audit.state import Job
from daq.audit.views.afterwards import because, face, fine, known, read
from daq.audit.views.figures import length
from daq.audit.views.shims import told_none
from daq.checks.sweep.slow_turn.fit import SlowTurn
from daq.records.telling.figures import axes
from daq.screens.numbers import say_answers, say_effect
from daq.squaring.surmise import Guess
from daq.words import Figure, Said, said


def _prepared(job: Job, data: e.Prepared) -> tuple[Said, ...]:
    laid, clamped = data.laid, data.clamped
    return known(
        said("row-number", number=data.serial_number),
        said("row-laid", ring=laid.ring.say, at=said("told-place", place=laid.mark))
        if laid
        else None,
        said("row-clamped", at=said("told-place", place=clamped.mark)) if clamped else None,
        said("row-touched") if data.touched else None,
        said("row-cracked") if data.cracked else None,
        said("row-ram-moved") if data.learned is not None else None,
    )


def _free(job: Job, data: e.FreeRead) -> tuple[Said, ...]:
    seen = replace(job, gauge=replace(job.gauge, unit=data.unit))
    wanders = said("row-wanders", by=fine(seen, data.spread_mm))
    return known(read(seen, data.reading), wanders, data.said)


def _pushed(job: Job, data: e.Pushed) -> tuple[Said, ...]:
    away = said("row-stayed-away", by=face(job, data.away_face_mm)) if data.away_face_mm else None
    moved = said("row-pushed", by=face(job, data.excursion_face_mm, plus=True))
    return known(moved, away, None if data.ok else said("row-not-taken"), data.said)


def _reading(job: Job, data: e.ReadingTaken) -> tuple[Said, ...]:
    second = None if data.second is None else read(job, data.second, second=True)
    preload = None
    if data.preload_mm is not None:
        preload = said("row-preload", by=face(job, data.preload_mm))
    return known(read(job, data.reading), second, preload, data.said)


def _sweep(job: Job, data: e.SweepDone) -> tuple[Said, ...]:
    number = said("row-sweep", n=data.number, purpose=data.purpose, turned=data.turned or "none")
    spare = data.spare_mm
    return known(
        number,
        because(data.why),
        *axes(job, data.results, data.whole, data.budgets),
        said("row-return", by=_signed(job, data.return_error_mm)) if data.returned else None,
        None if data.slow is None else _slow(data.slow),
        None if spare is None else said("row-spare", by=_signed(job, spare)),
        *(_added(job, each) for each in data.added),
        *(flaw.said for flaw in data.findings),
        *map(_guess, data.guesses),
        said("row-guess-used") if data.used else None,
        None if data.usable else said("row-sweep-again"),
        *(say_effect(each, unit_of(job)) for each in data.effects),
        *_no_shims(job, data),
    )


def _slow(slow: SlowTurn) -> Said:
    return said(
        "row-slow-turn",
        seconds=Figure(slow.seconds, 0),
        samples=slow.samples,
        lag=Figure(slow.lag_s, 2),
        u=Figure(slow.lag_u_s, 2),
        uneven=Figure(100.0 * slow.uneven, 0),
    )


def _added(job: Job, added: Added) -> Said:
    side, nod = (_signed(job, mm) for mm in added.d_mm.values())
    return said("row-added", of=added.of or "none", side=side, nod=nod)


def _signed(job: Job, mm: float) -> Said:
    return length(mm, unit_of(job), 1, plus=True)


def _check(job: Job, data: e.CheckDone) -> tuple[Said, ...]:
    def if_any(mm: float | None) -> Said | None:
        return None if mm is None else _signed(job, mm)

    shift, before = if_any(data.shift_mm), if_any(data.before_tightening_mm)
    doubted = if_any(data.doubted_mm)
    return known(
        *axes(job, data.results, data.whole),
        said("row-shift", by=shift) if shift else None,
        said("row-before-tightening", d=before) if before else None,
        said("row-shift-doubted", by=doubted) if doubted else None,
        data.said,
        *map(_guess, data.guesses),
        said("row-guess-used") if data.used else None,
        None if data.question is None else said("row-asked", what=data.question.said),
        *_no_shims(job, data),
    )


def _guess(guess: Guess) -> Said:
    """What may have happened, with its share of all that was weighed."""
    angle = Figure(math.degrees(guess.figure) if guess.kind == "swung" else 0.0, 0)
    return said("row-guess", kind=guess.kind, share=Figure(100.0 * guess.share, 0), angle=angle)


def _no_shims(job: Job, data: e.SweepDone | e.CheckDone) -> tuple[Said, ...]:
    """What is left as it is since no shim would do."""
    ahead = data.next.ahead if data.next is not None else None
    return () if ahead is None else told_none(job, ahead.no_shims)


def _learned(job: Job, data: e.ResponseUpdated) -> tuple[Said, ...]:
    answers = HeadSeen().knowing(data.learned).answers
    return tuple(say_answers(job, axis, found, unit_of(job)) for axis, found in answers.items())


def _wanted(job: Job, data: e.SweepWanted) -> tuple[Said, ...]:
    laid = data.laid
    mark = None if laid is None else said("told-place", place=laid.mark)
    return known(
        because(data.why),
        said("row-laid", ring=laid.ring.say, at=mark) if laid and mark else None,
    )


def _restarted(job: Job, data: e.Restarted) -> tuple[Said, ...]:
    return known(data.said)


def _nothing_more(job: Job, data: e.Data) -> tuple[Said, ...]:
    return ()


READS: Mapping[type, Callable[[Job, Any], tuple[Said, ...]]] = {
    e.Prepared: _prepared,
    e.FreeRead: _free,
    e.Pushed: _pushed,
    e.ReadingTaken: _reading,
    e.SweepDone: _sweep,
    e.CheckDone: _check,
    e.ResponseUpdated: _learned,
    e.SweepWanted: _wanted,
    e.Restarted: _restarted,
    e.TouchWanted: _nothing_more,
}
