"""The measured cells as aligned text."""

from collections.abc import Iterable, Sequence

from .cells import Cell
from .measure import Measured

HEADS = (
    "cell", "moves to", "rule", "mean", "reach", "99 %", "reach", "reached",
    "truly in", "conforms", "does not", "undecided", "asked", "lost",
)  # fmt: skip
_LEFT = (0, 1, 2)


def line(measured: Measured) -> tuple[str, ...]:
    """One cell of the table."""
    cell = measured.cell
    asked = sum(each.asked > 0 for each in measured.outcomes) / len(measured.outcomes)
    return (
        cell.key,
        cell.say,
        _rule(cell),
        f"{measured.mean:.3f}",
        "" if cell.mean is None else f"{cell.mean:g}",
        str(measured.most),
        "" if cell.most is None else str(cell.most),
        _reached(measured),
        f"{measured.inside:.1%}",
        *(f"{measured.verdict(each):.1%}" for each in VERDICTS),
        f"{asked:.1%}",
        str(len(measured.lost)),
    )


def _rule(cell: Cell) -> str:
    """The rule, and the share that it asks for."""
    files = cell.series.files
    return f"simple {files.share:g}" if files.rule == "simple" else files.rule


VERDICTS = ("conforms", "does-not-conform", "cannot-be-decided")


def reached(measured: Measured) -> bool | None:
    """Whether every figure of the cell was kept to; None when it has none."""
    cell = measured.cell
    kept = []
    if cell.mean is not None:
        kept.append(measured.mean <= cell.mean)
    if cell.most is not None:
        kept.append(measured.most <= cell.most)
    if cell.undecided is not None:
        kept.append(measured.verdict("cannot-be-decided") >= cell.undecided)
    return all(kept) if kept else None


def _reached(measured: Measured) -> str:
    return {True: "yes", False: "NO", None: ""}[reached(measured)]


def table(lines: Iterable[Sequence[str]], heads: Sequence[str] = HEADS) -> str:
    """The lines under their heads, words to the left and figures to the right."""
    rows = [heads, *lines]
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return "\n".join(
        "  ".join(
            text.ljust(width) if at in _LEFT else text.rjust(width)
            for at, (text, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    )
