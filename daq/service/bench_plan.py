"""What a gauge's check is to be: its lengths and blocks, the way through them, its rule."""

import argparse
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from daq.audit.shop_papers import ShopPapers
from daq.checks.gauge import plan
from daq.checks.gauge.blocks import BlockSet, GaugeBlock
from daq.checks.gauge.reduce import SHORT_MM
from daq.gauges.config import GaugeConfig
from daq.metrology.rule import Rule
from daq.service.files import ShopFiles
from daq.service.lengths import length
from daq.service.setup import unit_of
from daq.settings import SettingsError, build, read_toml
from daq.units import SLACK_MM, UnitError, parse
from daq.words import Unit

TWICE: Final = 2
"""Without a repeat nobody knows how well one reading stands for itself."""


@dataclass(frozen=True)
class CheckWanted:
    """A check that is wanted: of `gauge` by its key, with the set `blocks` of those in `config`.

    `over` of its travel, within a `turn`, mm, or the `lengths` that are named; None: as usual.
    `state` of the gauge, `temperature` of the blocks, °C, and for how long all has `rested`, s: ""
    or None where that is to be asked.
    """

    config: Path
    gauge: str
    blocks: str | None
    over: tuple[float, float] | None = None
    turn: float | None = None
    lengths: dict[float, str] | None = None
    down: bool = False
    repeats: int | None = None
    state: str = ""
    temperature: float | None = None
    rested: float | None = None


@dataclass(frozen=True)
class CheckPlan:
    """What is to be checked: the gauge, the lengths as written, and the way through them.

    `stacks`: the blocks of each length; None where nobody said which, and nothing is known of them.
    """

    key: str
    gauge: GaugeConfig
    names: dict[float, str]
    steps: tuple[plan.Step, ...]
    down: bool
    repeats: int
    rule: Rule
    shop: ShopPapers
    blocks: BlockSet | None = None
    stacks: dict[float, tuple[GaugeBlock, ...]] | None = None

    @property
    def ends(self) -> tuple[float, float]:
        """The shortest and the longest length, mm."""
        return min(self.names), max(self.names)


def lengths(text: str) -> dict[float, str]:
    """Read "0 mm, 1 mm" into millimetres and how each was written."""
    try:
        named = {parse(part, "length"): part.strip() for part in text.split(",") if part.strip()}
        plan.steps(tuple(named), down=False, repeats=1)
    except (UnitError, ValueError) as error:
        raise argparse.ArgumentTypeError(str(error)) from None
    return named


def span(text: str) -> tuple[float, float]:
    """Read "1 mm to 1.8 mm" or "5 mm", which begins at nothing, into millimetres."""
    first, to, last = text.partition(" to ")
    try:
        low_mm, high_mm = (parse(first, "length"), parse(last, "length")) if to else (0.0, None)
        high_mm = parse(first, "length") if high_mm is None else high_mm
    except UnitError as error:
        raise argparse.ArgumentTypeError(str(error)) from None
    if not 0.0 <= low_mm < high_mm:
        raise argparse.ArgumentTypeError(f"found {text!r}; allowed: the shorter to the longer")
    return low_mm, high_mm


def repeats(text: str) -> int:
    """Read how often to go through all lengths."""
    if not text.isdecimal() or not 1 <= int(text) <= plan.MOST_REPEATS:
        raise argparse.ArgumentTypeError(f"found {text!r}; allowed: 1 to {plan.MOST_REPEATS}")
    return int(text)


def block_set(folder: Path, key: str) -> BlockSet:
    """Return the set that blocks/KEY.toml of the shop's folder describes.

    Raises:
        SettingsError: there is no such file, or every problem it has.
    """
    path = folder / "blocks" / f"{key}.toml"
    if not path.is_file():
        there = ", ".join(sorted(each.stem for each in path.parent.glob("*.toml"))) or "none there"
        raise SettingsError([f"--blocks: found {key!r}; allowed: {there} (in {path.parent})"])
    return build(BlockSet, read_toml(path), str(path))


def planned(shop: ShopFiles, args: CheckWanted) -> CheckPlan:
    """Return what is asked for.

    Raises:
        SettingsError: it cannot be done; says why.
    """
    gauge = shop.gauges.get(args.gauge)
    if gauge is None:
        there = ", ".join(sorted(shop.gauges))
        raise SettingsError([f"--gauge: found {args.gauge!r}; allowed: {there}"])
    blocks = block_set(args.config, args.blocks) if args.blocks else None
    names = args.lengths if blocks is None else _named(_of_set(blocks, gauge, args), blocks, gauge)
    if names is None:
        raise SettingsError(["found neither --blocks nor --lengths; allowed: one, or both"])
    reach = max(names) - min(names)
    if reach > gauge.travel + SLACK_MM:
        raise SettingsError(
            [
                f"{'--lengths' if args.lengths else '--over'}: found {reach:g} mm from the "
                "shortest to the longest; "
                f"allowed: at most the gauge's travel, {gauge.travel:g} mm"
            ]
        )
    down = args.down or blocks is not None
    rounds = args.repeats or (1 if blocks is None else TWICE)
    if blocks is not None and rounds < TWICE:
        raise SettingsError([f"--repeats: found {rounds}; allowed with --blocks: {TWICE} or more"])
    way = plan.steps(tuple(names), down=down, repeats=rounds)
    stacks = None if blocks is None else {mm: _stack(blocks, mm) for mm in names}
    return CheckPlan(
        args.gauge,
        gauge,
        names,
        way,
        down,
        rounds,
        rule_of(shop, args.gauge),
        shop.papers,
        blocks,
        stacks,
    )


def rule_of(shop: ShopFiles, key: str) -> Rule:
    """Return the rule the shop judges by on the machines that name this gauge; the strictest.

    Where no machine names it, what a machine's file has by default.
    """
    machines = shop.machines.values()
    rules = [m.verdict for m in machines if key in (m.gauge, m.second_gauge)]
    strict = sorted(rules, key=lambda rule: (rule.name == "guarded", rule.coverage, -rule.share))
    return strict[-1] if strict else Rule()


def _of_set(blocks: BlockSet, gauge: GaugeConfig, args: CheckWanted) -> list[float]:
    """Ten steps over the span and ten within a turn, or the lengths that were named instead."""
    try:
        if args.lengths:
            return list(args.lengths)
        low_mm, high_mm = args.over or (0.0, gauge.travel)
        over = plan.over(blocks, low_mm, high_mm)
        turn_mm = args.turn or SHORT_MM
        return [*over, *plan.within_a_turn(blocks, low_mm, high_mm, turn_mm)]
    except ValueError as error:
        raise SettingsError([f"--blocks: {error}"]) from None


def _stack(blocks: BlockSet, length_mm: float) -> tuple[GaugeBlock, ...]:
    stack = blocks.stack(length_mm)
    if stack is None:
        raise SettingsError(
            [f"--lengths: found {length_mm:g} mm; allowed: what three blocks of the set make"]
        )
    return stack


def _named(found: list[float], blocks: BlockSet, gauge: GaugeConfig) -> dict[float, str]:
    """Each length once, by how its blocks are called, in the gauge's own unit."""
    unit = unit_of(gauge)
    named: dict[float, str] = {}
    for mm in sorted(found):
        if any(abs(mm - other) <= SLACK_MM for other in named):
            continue
        ones = (_called(block, unit) for block in _stack(blocks, mm))
        named[mm] = " and ".join(ones) or length(0.0, unit)
    return named


def _called(block: GaugeBlock, unit: Unit) -> str:
    mark = f" ({block.identification})" if block.identification else ""
    return f"{length(block.nominal, unit)}{mark}"
