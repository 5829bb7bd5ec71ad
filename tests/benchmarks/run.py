"""Prints what the service costs beside bare loops measured in the same run.

    .venv/bin/python tests/benchmarks/run.py [--row N ...] [--quick] [--repeats N]

Takes about five minutes. Only the ratios carry to other machines; no ratio fails anything.
Figures at the 99th percentile need a machine that does nothing else. With --repeats all is
measured so many times and the turn with the median ratio is shown, with lowest and highest.
"""

import argparse
import json
import math
import tempfile
from collections.abc import Callable, Iterable, Iterator
from dataclasses import asdict, dataclass
from pathlib import Path

import crowd_rows
import daemon_rows
import fit_rows
import floor_rows
import gauge_rows
import ledger_rows
import live_rows
import year_rows

Measured = list[tuple[str, float, float, float]]


@dataclass(frozen=True)
class Row:
    """One figure beside its anchor, both in seconds or both in bytes."""

    number: int
    say: str
    own: float
    anchor: float
    reach: float
    unit: str
    lowest: float = math.nan
    highest: float = math.nan

    @property
    def ratio(self) -> float:
        """Own over anchor: all that carries to another machine."""
        return self.own / self.anchor


@dataclass(frozen=True)
class Counts:
    """How much is measured."""

    frames: int
    events: int
    repeats: int
    audit_s: float
    kept: int
    audits: int
    asked: int


FULL = Counts(1000, 2000, 5, audit_s=90.0, kept=daemon_rows.CAPACITY, audits=2000, asked=300)
QUICK = Counts(frames=60, events=20, repeats=1, audit_s=1.0, kept=200, audits=12, asked=5)

GROUPS: dict[tuple[int, ...], Callable[[Path, Counts], Measured]] = {
    (1,): lambda folder, n: live_rows.measure(folder, 8, n.frames, 2.5),
    (2,): lambda folder, n: live_rows.measure(folder, 32, n.frames, 3.5),
    (3, 4, 4, 5): lambda folder, n: gauge_rows.measure(n.frames, n.repeats),
    (6,): lambda folder, n: ledger_rows.measure(folder, n.events),
    (7,): lambda folder, n: ledger_rows.chained(folder, n.events),
    (8,): lambda folder, n: ledger_rows.audit_bytes(folder),
    (9, 9, 10): lambda folder, n: year_rows.measure(folder, n.audits, n.repeats),
    (11,): lambda folder, n: fit_rows.measure(),
    (12,): lambda folder, n: daemon_rows.memory(folder, n.repeats, n.audit_s, n.kept),
    (13,): lambda folder, n: daemon_rows.first_number(folder, n.repeats),
    (14,): lambda folder, n: daemon_rows.vanished(folder, 2 * n.repeats),
    (15,): lambda folder, n: crowd_rows.measure(folder, n.asked),
    (19,): lambda folder, n: floor_rows.measure(folder, n.frames / 50),
}
"""The rows' numbers (a single one is that of every row), and what measures them.

The folder handed in does not exist yet.
"""

IN_BYTES = (8, 12)


def measure(wanted: Iterable[int], counts: Counts) -> Iterator[Row]:
    """Yield the wanted rows as they are measured."""
    wanted = frozenset(wanted)
    for numbers, group in GROUPS.items():
        if wanted.isdisjoint(numbers):
            continue
        with tempfile.TemporaryDirectory() as place:
            found = group(Path(place) / "new", counts)
        each = numbers if len(numbers) > 1 else numbers * len(found)
        for number, row in zip(each, found, strict=True):
            yield Row(number, *row, unit="bytes" if number in IN_BYTES else "s")


def middle(turns: list[list[Row]]) -> Iterator[Row]:
    """Yield each row of the turn in which its ratio was the median one."""
    for same in zip(*turns, strict=True):
        ordered = sorted(same, key=lambda row: row.ratio)
        chosen = asdict(ordered[len(ordered) // 2])
        yield Row(**chosen | {"lowest": ordered[0].ratio, "highest": ordered[-1].ratio})


def shown(value: float, unit: str) -> str:
    """A figure with three digits and a unit that suits it."""
    if unit == "bytes":
        return f"{value / 1e6:.1f} MB"
    power = min(3, max(0, math.floor(-math.log10(value) / 3) + 1))
    return f"{value * 1000**power:.3g} {('s', 'ms', 'µs', 'ns')[power]}"


def line(row: Row) -> tuple[str, ...]:
    """A row as the table's cells."""
    spread = "" if math.isnan(row.lowest) else f"{row.lowest:.2f} to {row.highest:.2f}"
    figures = (shown(row.own, row.unit), shown(row.anchor, row.unit), f"{row.ratio:.2f}")
    reached = "yes" if row.ratio <= row.reach else "NO"
    return (str(row.number), row.say, *figures, f"{row.reach:g}", reached, spread)


HEADS = ("#", "figure / anchor", "own", "anchor", "ratio", "reach", "reached", "spread")


def table(rows: Iterable[Row]) -> str:
    """The rows as aligned text."""
    cells = [HEADS, *map(line, rows)]
    widths = [max(map(len, column)) for column in zip(*cells, strict=True)]
    return "\n".join(
        "  ".join(
            cell.ljust(width) if at in (1, 7) else cell.rjust(width)
            for at, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in cells
    )


def main() -> None:
    """Measure what was asked for and print it."""
    known = sorted({number for numbers in GROUPS for number in numbers})
    parser = argparse.ArgumentParser(description="What the service costs beside bare loops.")
    parser.add_argument("--row", type=int, action="append", choices=known, help="only this row")
    parser.add_argument("--quick", action="store_true", help="few events: the figures mean little")
    parser.add_argument("--repeats", type=int, default=1, help="measure all so many times (1)")
    parser.add_argument("--json", action="store_true", help="print the rows as JSON")
    args = parser.parse_args()
    counts = QUICK if args.quick else FULL
    turns = [list(measure(args.row or known, counts)) for _ in range(args.repeats)]
    rows = list(middle(turns)) if args.repeats > 1 else turns[0]
    print(json.dumps([asdict(row) for row in rows]) if args.json else table(rows))


if __name__ == "__main__":
    main()
