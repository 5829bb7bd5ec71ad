"""How many minutes and moves a head takes until it is inside: random heads, every decision.

    python tests/benchmarks/head_rows.py [--heads N] [--cells first-10,one-10,...]
        [--processes N] [--seed N] [--rule simple|share|guarded|both]

Every audit goes press by press through the product's own decisions, on an exact mill that
shares no code with them; its hands obey the console and nothing else. Figures to reach hold
for the simple rule, by which an axis is in or out; the guarded rule is shown beside it, or
(`share`) the simple rule that asks for no more uncertainty than the default share of the limit.
Below stand the same heads squared by hand. A thousand heads of every cell by both rules take
about half an hour on two cores.
"""

import argparse
import os
import sys
from dataclasses import replace
from functools import partial

from heads.cells import BY_KEY, CELLS, Cell
from heads.measure import SEED, each_head, measure, moves_by_hand, percentile
from heads.shop import Files
from heads.table import line, table

from daq.metrology.rule import SHARE

BY_HAND = (("half of the difference", False), ("a guessed part of it", True))


def guarded(cell: Cell) -> Cell:
    """The same cell by the guarded rule, for which no figure is set."""
    return _with(cell, replace(cell.series.files, rule="guarded"))


def shared(cell: Cell) -> Cell:
    """The same cell with the simple rule's default share, for which no figure is set."""
    return _with(cell, replace(cell.series.files, share=SHARE))


def _with(cell: Cell, files: Files) -> Cell:
    series = replace(cell.series, files=files)
    return replace(cell, series=series, mean=None, most=None, minutes=None, truly=None)


def chosen(keys: str, rule: str) -> list[Cell]:
    """The cells with these keys, by one rule or both, or the simple one with and without share."""
    cells = [BY_KEY[key] for key in keys.split(",")] if keys else list(CELLS)
    simple = [cell for cell in cells if rule != "guarded" or cell.series.files.rule == "guarded"]
    others = [cell for cell in cells if rule != "simple" and cell.series.files.rule == "simple"]
    return simple + [(shared if rule == "share" else guarded)(cell) for cell in others]


def by_hand(cell: Cell, heads: int, processes: int, seed: int) -> list[tuple[str, ...]]:
    """The moves of the same heads without the product."""
    lines = []
    for say, guess in BY_HAND:
        moves = each_head(partial(moves_by_hand, cell, guess, seed), heads, processes)
        figures = (percentile(moves, 0.5), percentile(moves, 0.99))
        lines.append((f"{cell.say}: {say}", "by hand", "", *map(str, figures)))
    return lines


def main() -> None:
    """Measure what was asked for and print it."""
    parser = argparse.ArgumentParser(description="How many moves a head takes.")
    parser.add_argument("--heads", type=int, default=1000, help="heads a cell (1000)")
    parser.add_argument("--cells", default="", help=f"of: {','.join(BY_KEY)} (all)")
    parser.add_argument("--rule", choices=("simple", "share", "guarded", "both"), default="both")
    parser.add_argument("--processes", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--seed", type=int, default=SEED)
    args = parser.parse_args()
    rows = []
    for row in measure(chosen(args.cells, args.rule), args.heads, args.processes, args.seed):
        said = f"{row.cell.key}: {row.minutes.mean:.2f} min, {row.mean:.3f} / {row.most} moves"
        print(said, file=sys.stderr, flush=True)
        rows.append(row)
    print(f"{args.heads} heads a cell, seed {args.seed}\n")
    print(table(line(row) for row in rows))
    for row in rows:
        for outcome in row.lost[:3]:
            print(f"lost, {row.cell.key}: {outcome.lost}")
    hands = [
        row
        for cell in (BY_KEY["first-10"], BY_KEY["first-5"])
        for row in by_hand(cell, args.heads, args.processes, args.seed)
    ]
    print(f"\n{table(hands, ('', '', '', 'median', '99 %'))}")


if __name__ == "__main__":
    main()
