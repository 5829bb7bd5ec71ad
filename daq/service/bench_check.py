"""A gauge stepped through known lengths with whoever is asked: read, judged, made a row."""

import uuid
from collections.abc import Sequence
from dataclasses import asdict, dataclass, replace

from daq import __version__
from daq.audit import evidence
from daq.audit.codec import encode
from daq.audit.gauge_events import BenchWork, BlocksUsed, GaugeChecked
from daq.audit.parts import CheckPoint
from daq.audit.recompute import day_of
from daq.checks.gauge.doubt import WorkedWith, doubted, judged
from daq.checks.gauge.reduce import GaugeErrors
from daq.checks.gauge.say import CheckedOver, digits, sentence
from daq.metrology.budget import Budget
from daq.metrology.rule import Judged
from daq.service.bench_asks import Asks
from daq.service.bench_plan import CheckPlan, CheckWanted
from daq.service.bench_ring import Settled
from daq.service.bench_talk import BenchFacts, Conversation, offs, read_of
from daq.service.clock import Clock
from daq.units import places
from daq.words import Asker, Draft, Said, Unit


@dataclass(frozen=True)
class BenchCheck:
    """A check, read and judged: what it showed, from which values, and what is said of it.

    `facts` and `verdict` are None where nobody said which blocks they were.
    """

    task: CheckPlan
    found: GaugeErrors
    settled: tuple[Settled, ...]
    unit: Unit
    decimals: int
    told: Said
    facts: BenchFacts | None = None
    verdict: tuple[Judged, Budget] | None = None
    taken_back: int = 0


def worked(session: Conversation, asks: Asks, task: CheckPlan, known: CheckWanted) -> BenchCheck:
    """Go through a check with somebody, and tell what came of it; `known` is not asked.

    Raises:
        GivenUp: they left, or the gauge cannot be relied on.
    """
    facts = None
    if task.blocks is not None:
        facts = session.facts(known.state, known.temperature, known.rested)
    settled = session.work()
    found = read_of(task, settled, facts)
    session.table(found, settled[-1])
    done = replace(judge(task, found, settled, facts), taken_back=session.taken_back)
    asks.say(done.told)
    return done


def judge(
    task: CheckPlan, found: GaugeErrors, settled: tuple[Settled, ...], facts: BenchFacts | None
) -> BenchCheck:
    """Return the check judged: by the shop's rule where its blocks are known, else as it reads."""
    sample = settled[-1].samples[-1]
    unit, decimals = sample.unit, digits(sample.unit, places(sample.text))
    over = CheckedOver(*task.ends, task.gauge.travel)
    if task.blocks is None or task.stacks is None or facts is None:
        told = sentence(found, unit, decimals, over)
        return BenchCheck(task, found, settled, unit, decimals, told)
    stacks = tuple(task.stacks[step.nominal_mm] for step in task.steps)
    bench = WorkedWith(task.blocks, stacks, facts.celsius, facts.rested_s, task.gauge.resolution)
    budget = doubted(found, bench, task.rule.each_axis)
    ruled = judged(found, budget, task.rule)
    found = replace(found, passed=ruled.word == "in")
    told = sentence(found, unit, decimals, over, (ruled, budget))
    return BenchCheck(task, found, settled, unit, decimals, told, facts, (ruled, budget))


def record(
    done: BenchCheck, done_by: str, clock: Clock, asker: Asker | None = None
) -> tuple[Draft, bytes]:
    """The event of a check by the person with that id, and the samples behind it as one chunk.

    `asker`: who asked for it at a page.
    """
    task, found, settled = done.task, done.found, done.settled
    chunk = evidence.encode(sample for one in settled for sample in one.samples)
    stamp = clock.stamp()
    points = zip(found.points, offs(task, done.facts), strict=True)
    data = GaugeChecked(
        gauge=task.key,
        serial_number=task.gauge.serial_number,
        done_by=done_by,
        day=day_of(stamp),
        max_error_mm=found.max_error_mm,
        points=tuple(CheckPoint(p.nominal_mm, p.read_mm, p.direction, off) for p, off in points),
        span_mm=found.span_mm,
        repeatability_mm=found.repeatability_mm,
        hysteresis_mm=found.hysteresis_mm,
        passed=found.passed,
        said=done.told,
        work=_work(done),
    )
    kind, version, body = encode(data)
    digest = evidence.digest(chunk)
    cause = _cause(task, settled, done_by)
    cause |= {} if asker is None else {"asker": asdict(asker)}
    draft = Draft(kind, version, "", "", stamp, done_by or "bench", cause, body, (digest,))
    return draft, chunk


def _cause(task: CheckPlan, settled: Sequence[Settled], done_by: str) -> dict[str, object]:
    return {
        "id": str(uuid.uuid4()),
        "kind": "gauge-check",
        "payload": {
            "gauge": task.key,
            "lengths_mm": sorted(task.names),
            "down": task.down,
            "repeats": task.repeats,
            "done_by": done_by,
        },
        "windows": [[one.window.first_n, one.window.last_n] for one in settled],
        "counts_up": task.gauge.counts_up,
        "engine": __version__,
    }


def _work(done: BenchCheck) -> BenchWork | None:
    task, facts, blocks = done.task, done.facts, done.task.blocks
    if blocks is None or facts is None or done.verdict is None:
        return None
    papers, (ruled, budget) = blocks.certificate, done.verdict
    used = BlocksUsed(
        name=blocks.name,
        serial_number=blocks.serial_number,
        material=blocks.material,
        certificate=papers.number,
        date=papers.date.isoformat(),
        laboratory=papers.laboratory,
    )
    low_mm, high_mm = task.ends
    return BenchWork(
        gauge_name=task.gauge.name,
        shop=task.shop,
        state=facts.state,
        blocks=used,
        celsius=facts.celsius,
        rested_s=facts.rested_s,
        low_mm=low_mm,
        high_mm=high_mm,
        travel_mm=task.gauge.travel,
        resolution_mm=task.gauge.resolution,
        unit=done.unit,
        decimals=done.decimals,
        short_mm=done.found.short_mm,
        budget=budget,
        word=ruled.word,
        ruling=ruled.ruling,
        taken_back=done.taken_back,
        guard_mm=ruled.guard_mm,
    )
