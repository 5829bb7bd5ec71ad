"""The measured cells as aligned text."""

from collections.abc import Iterable, Sequence

from .cells import Cell
from .measure import Measured, Spread

HEADS = (
    "cell", "moves to", "rule", "minutes", "reach", "95 %", "moves", "reach", "99 %", "reach",
    "readings", "truly in", "reach", "reached", "conforms", "does not", "undecided", "asked",
    "lost",
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
        _mean(measured.minutes),
        _to_reach(cell.minutes),
        f"{measured.minutes.most:.1f}",
        _mean(measured.turned),
        _to_reach(cell.mean),
        str(measured.most),
        _to_reach(cell.most),
        f"{measured.readings:.1f}",
        f"{measured.inside:.1%}",
        "" if cell.truly is None else f"{cell.truly:.0%}",
        _reached(measured),
        *(f"{measured.verdict(each):.1%}" for each in VERDICTS),
        f"{asked:.1%}",
        str(len(measured.lost)),
    )


def _mean(of: Spread) -> str:
    return f"{of.mean:.2f} ± {of.error:.2f}"


def _to_reach(figure: float | None) -> str:
    return "" if figure is None else f"{figure:g}"


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
    if cell.minutes is not None:
        kept.append(measured.minutes.mean <= cell.minutes)
    if cell.truly is not None:
        kept.append(measured.inside >= cell.truly)
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
