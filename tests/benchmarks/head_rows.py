"""How many minutes and moves a head takes until it is inside: random heads, every decision.

    python tests/benchmarks/head_rows.py [--heads N] [--cells first-10,one-10,...]
        [--processes N] [--seed N] [--rule simple|share|guarded|both] [--kept FILE]
    python tests/benchmarks/head_rows.py --shown --kept FILE [--processes N]

Every audit goes press by press through the product's own decisions, on an exact mill that
shares no code with them; its hands obey the console and nothing else, and the clock of
`heads/clock.py` counts what they do. Figures to reach hold for the simple rule, by which an axis
is in or out, its share of U off; the guarded rule is shown beside it, or (`share`) the simple rule
that asks for no more uncertainty than the default share of the limit. Below stand the same heads
squared by hand.

`--shown` measures all that is to be shown, each cell on its number of heads. With `--kept` every
head is written down as it comes: stopped, it goes on with the same command, and what is done of
the same code is not done again. `--known` measures nothing more and shows the heads there are.
"""

import argparse
import os
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from heads.cells import BY_KEY, CELLS, Cell
from heads.kept import Kept, digest
from heads.measure import SEED
from heads.shop import Files
from heads.shown import SHOWN, Part, shown

from daq.metrology.rule import SHARE


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


def asked(args: argparse.Namespace) -> Iterator[Part]:
    """The cells to measure, each on so many heads."""
    if args.shown:
        yield from SHOWN
    else:
        yield Part(chosen(args.cells, args.rule), args.heads, args.seed)


def main() -> None:
    """Measure what was asked for and print it."""
    parser = argparse.ArgumentParser(description="How many minutes and moves a head takes.")
    parser.add_argument("--heads", type=int, default=1000, help="heads a cell (1000)")
    parser.add_argument("--cells", default="", help=f"of: {','.join(BY_KEY)} (the usual ones)")
    parser.add_argument("--rule", choices=("simple", "share", "guarded", "both"), default="both")
    parser.add_argument("--processes", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--seed", type=int, default=SEED)
    parser.add_argument("--shown", action="store_true", help="all that is to be shown")
    parser.add_argument("--kept", type=Path, help="where each head is written down as it comes")
    parser.add_argument("--known", action="store_true", help="measure nothing more")
    args = parser.parse_args()
    kept, began = Kept(args.kept, digest(), only=args.known), time.monotonic()
    before_s = kept.cpu_s
    try:
        for text in shown(list(asked(args)), args.processes, kept):
            print(f"{text}\n", flush=True)
    except KeyboardInterrupt:
        print("Stopped. The same command goes on from here." if args.kept else "Stopped.")
    print(
        f"Code {kept.code}: {kept.heads} runs of a head in {kept.cpu_s:.0f} s of processor time, "
        f"{kept.cpu_s - before_s:.0f} s of it in these {time.monotonic() - began:.0f} s."
    )
    mean_ms, most_ms = kept.press_ms
    print(f"A press, decided and told, took {mean_ms:.1f} ms of it, and {most_ms:.0f} ms at most.")


if __name__ == "__main__":
    main()
