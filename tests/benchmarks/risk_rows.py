"""What a rule's "conforms" is worth, and what it leaves undecided: share by share of the limit.

    python tests/benchmarks/risk_rows.py [--conforms N] [--heads N] [--lines N ...] [--draws N]
        [--processes N] [--seed N]

Each head is audited, press by press through the product's own decisions (those of
`head_rows.py`), and what it was left at is then judged by every rule. So many heads that the
default share, no share and the guarded rule each have `--conforms` called in, where `--heads`
would make as many. Beside them stand leans drawn at random, as wide as the limit and three times
that: there the risk that came true must be the one that was stated. A truly-in head is inside on
both axes. About twenty minutes on one core.
"""

import argparse
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import partial
from random import Random
from typing import TypeVar

from heads.left import OFF, OVER_MM, Audits, Left, audited
from heads.measure import SEED, each_head

from daq.metrology.rule import SHARE, Rule

T = TypeVar("T")
SHARES = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3)
RULES = tuple(Rule("simple", share=share) for share in SHARES)
GUARDED = Rule("guarded")
BATCH = 50
RADIUS_MM = 100.0
"""What a machine's file has by default."""


@dataclass(frozen=True, slots=True)
class Risk:
    """What a rule came to: "conforms", those truly out, truly in, and those not called in.

    `stated`: the mean probability of being out that stood with what was called in.
    """

    conforms: int
    false: int
    inside: int
    missed: int
    stated: float

    @property
    def out(self) -> float:
        """The share of "conforms" that is truly out."""
        return self.false / max(self.conforms, 1)

    @property
    def not_called(self) -> float:
        """The share of truly-in heads that were not called in."""
        return self.missed / max(self.inside, 1)


def risk(left: Sequence[Left], rule: Rule) -> Risk:
    """Judge what was left by one rule."""
    judged = [(*each.judged(rule), each.inside) for each in left]
    called = [(p, inside) for conforms, p, inside in judged if conforms]
    inside = sum(each.inside for each in left)
    false = sum(not inside for _, inside in called)
    stated = sum(1.0 - p for p, _ in called) / max(len(called), 1)
    return Risk(len(called), false, inside, inside - (len(called) - false), stated)


def drawn(sd: float, limit_mm: float, u_mm: float, draws: int, seed: int) -> list[Left]:
    """Leans drawn with this standard deviation, in limits, each read with an error of u."""
    rng = Random(f"{sd} {limit_mm} {seed}")
    found = []
    for _ in range(draws):
        true = rng.gauss(0.0, sd * limit_mm), rng.gauss(0.0, sd * limit_mm)
        read = tuple(mm + rng.gauss(0.0, u_mm) for mm in true)
        found.append(Left(read, (u_mm, u_mm), (None, None), true, limit_mm))
    return found


@dataclass(frozen=True, slots=True)
class Wanted:
    """How many "conforms" behind a figure, of at most so many heads a line."""

    conforms: int
    heads: int
    processes: int
    seed: int


HEADS = ("rule", "conforms", "truly out", "stated", "truly in", "not called in")


def rows(left: Sequence[Left], rules: Iterable[Rule]) -> list[tuple[str, ...]]:
    """One line a rule."""
    lines = []
    for rule in rules:
        found = risk(left, rule)
        say = "guarded" if rule.name == "guarded" else f"simple {rule.share:.1f}"
        if rule.share == 1.0 and rule.name == "simple":
            say = "simple, off"
        shares = (found.out, found.stated, found.not_called)
        out, stated, missed = (f"{100.0 * share:.1f} %" for share in shares)
        lines.append((say, str(found.conforms), out, stated, str(found.inside), missed))
    return lines


def table(title: str, lines: Sequence[tuple[str, ...]]) -> str:
    """A title and its lines, aligned."""
    cells = [HEADS, *lines]
    widths = [max(map(len, column)) for column in zip(*cells, strict=True)]
    text = [
        "  ".join(
            cell.rjust(width) if at else cell.ljust(width)
            for at, (cell, width) in enumerate(zip(row, widths, strict=True))
        )
        for row in cells
    ]
    return "\n".join((title, *text, ""))


def titled(audits: Audits) -> str:
    """What a line's audits are."""
    over = "300 mm" if audits.over_mm else "the sweep"
    radius = "R 60 to 150" if audits.radius_mm is None else f"R {audits.radius_mm:g}"
    off = "ring always at its bound" if audits.at_bound else "all as stated"
    known = f", after {audits.before}" if audits.before else ""
    return f"{audits.limit_mm:.3f} mm over {over}, {radius}, {off}{known}"


def measured(audits: Audits, wanted: Wanted) -> str:
    """One line's audits, judged by every rule; the guarded rule steers audits of its own."""
    blocks: list[list[tuple[str, ...]]] = [[], []]
    heads = []
    for steered, rules, counted in (
        (OFF, RULES, (OFF, Rule("simple", share=SHARE))),
        (GUARDED, (GUARDED,), (GUARDED,)),
    ):
        ended = enough(replace(audits, rule=steered), counted, wanted)
        heads.append(f"{len(ended)} by the {steered.name} rule")
        for number, lefts in enumerate(zip(*ended, strict=True)):
            blocks[number] += rows(lefts, rules)
    title = f"{titled(audits)}: {', '.join(heads)}"
    return "\n".join(map(table, (title, "the same, then turned half round"), blocks))


def enough(audits: Audits, rules: Sequence[Rule], wanted: Wanted) -> list[tuple[Left, Left]]:
    """Audit head after head until each of these rules called in as many as wanted, or never will.

    What the most heads would not make so many, at the rate so far, is not waited for.
    """
    ended: list[tuple[Left, Left]] = []
    work = partial(audited, audits, wanted.seed)
    for first in range(0, wanted.heads, BATCH):
        batch = each_head(partial(shifted, work, first), BATCH, wanted.processes)
        ended += [each for each in batch if each is not None]
        called = [risk(left, rule).conforms for left in zip(*ended, strict=True) for rule in rules]
        rest = wanted.heads / len(ended)
        if not any(count < wanted.conforms <= count * rest for count in called):
            break
    return ended


def shifted(work: Callable[[int], T], first: int, number: int) -> T:
    """What is made of a head of a later batch."""
    return work(first + number)


LINES = (
    Audits(0.010, radius_mm=RADIUS_MM),
    *(
        Audits(mm, over_mm, at_bound)
        for at_bound in (False, True)
        for mm in (0.010, 0.005)
        for over_mm in (OVER_MM, None)
    ),
    Audits(0.010, None, before=3),
)
"""At the default radius first, and of a known head last."""


def main() -> None:
    """Measure what was asked for and print it."""
    parser = argparse.ArgumentParser(description="Risk and undecided, rule by rule.")
    parser.add_argument("--conforms", type=int, default=200, help="called in, a figure (200)")
    parser.add_argument("--heads", type=int, default=1000, help="heads a line at most (1000)")
    parser.add_argument("--draws", type=int, default=20_000, help="drawn leans a line (20000)")
    parser.add_argument("--lines", type=int, nargs="*", help="only these lines, from 0")
    parser.add_argument("--processes", type=int, default=1)
    parser.add_argument("--seed", type=int, default=SEED)
    args = parser.parse_args()
    wanted = Wanted(args.conforms, args.heads, args.processes, args.seed)
    for number, audits in enumerate(LINES):
        if args.lines is None or number in args.lines:
            print(measured(audits, wanted), flush=True)
    for sd in (1.0, 3.0):
        for of_limit in (0.3, 0.5, 0.7, 0.9):
            leans = drawn(sd, 0.010, of_limit * 0.010 / 1.959964, args.draws, args.seed)
            title = f"leans drawn, sd {sd:g} limits, U {of_limit:g} of the limit"
            print(table(title, rows(leans, (*RULES, GUARDED))))


if __name__ == "__main__":
    main()
