"""What stands with a verdict on the console: what it is of, by which rule, and how likely it is so.

The wall shows none of it: nobody acts on it from there. Before that, whose hands an audit is in.
"""

from collections.abc import Iterator

from daq.audit import addendum
from daq.audit.events import Signed
from daq.audit.facts import is_look
from daq.audit.measurand import measurand
from daq.audit.papers import noted
from daq.audit.parts import AxisResult, Rule, Whole
from daq.audit.rounds import Round
from daq.audit.setup import MachineSetup
from daq.audit.state import Closed, Job, MachineState
from daq.audit.views import handed
from daq.screens.numbers import say_probability, say_rule
from daq.words import Both, Said, said


def stands(state: MachineState) -> tuple[Said, ...]:
    """The sentences: at the signing, and once it is signed; elsewhere who handed it to whom."""
    job, last = state.job, state.last
    if job is not None:
        return (*handed.in_words(job.handed), *(_open(job) if job.step == "sign" else ()))
    if last is None or last.signed is None:
        return ()
    # The latest stands among the wall's notes, with how many came before it.
    added = addendum.in_words(last.later)[1:]
    return (*added, *_signed(last, last.signed))


def _open(job: Job) -> tuple[Said, ...]:
    left, machine = job.sweeps.as_left, job.setup.machine
    rule = None if is_look(job) else machine.verdict
    results, whole = (None, None) if left is None else (left.results, left.whole)
    came = job.round if job.check is not None else None
    return (measurand(job), *_judged(machine, rule, results, whole, came), *noted(job))


def _signed(last: Closed, signed: Signed) -> tuple[Said, ...]:
    of = () if signed.measurand is None else (signed.measurand,)
    judged = _judged(last.setup.machine, signed.rule, signed.as_left, signed.whole, signed.round)
    return (*of, *judged, *signed.noted)


def _judged(
    machine: MachineSetup,
    rule: Rule | None,
    results: Both[AxisResult] | None,
    whole: Whole | None,
    came: Round | None,
) -> Iterator[Said]:
    """The rule, and the probability of conformity of each thing that was judged by it."""
    if rule is None:
        return
    yield said("signed-by-rule", rule=say_rule(rule, "figures" if came else rule.together))
    if whole is not None:
        parts = [_likely(said("as-vector"), whole.probability)]
    elif results is not None:
        parts = [_likely(machine.axis(a).say, each.probability) for a, each in results.items()]
    else:
        measures = () if came is None else came.results
        parts = [_likely(each.name, each.probability) for each in measures]
    known = tuple(part for part in parts if part is not None)
    if known:
        yield said("likely-inside", of=known)


def _likely(name: Said | str, probability: float | None) -> Said | None:
    likely = say_probability(probability)
    return None if likely is None else said("likely-of", name=name, likely=likely)
