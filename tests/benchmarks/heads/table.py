"""The measured cells as aligned text."""

from collections.abc import Iterable, Sequence

from .by_hand import WAYS, ByHand, Way
from .cells import Cell
from .measure import Measured, Spread, percentile, spread

HEADS = (
    "cell", "moves to", "rule", "minutes", "reach", "95 %", "moves", "reach", "99 %", "reach",
    "readings", "truly in", "reach", "reached", "conforms", "undecided", "asked", "knocked",
    "named", "worse", "lost",
)  # fmt: skip
BY_HAND = (
    "cell", "by hand", "minutes", "moves", "99 %", "readings", "truly in", "headsweep quicker",
    "reach", "reached",
)  # fmt: skip
_LEFT = (0, 1, 2)
_YES: dict[bool | None, str] = {True: "yes", False: "NO", None: ""}


def line(measured: Measured) -> tuple[str, ...]:
    """One cell of the table."""
    cell = measured.cell
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
        f"{measured.verdict('conforms'):.1%}",
        f"{measured.verdict('cannot-be-decided'):.1%}",
        f"{measured.share(lambda each: each.asked > 0):.1%}",
        f"{measured.knocked:.1%}",
        f"{measured.named:.1%}" if cell.series.so else "",
        str(sum(each.worse > 1 for each in measured.outcomes)),
        str(len(measured.lost)),
    )


def line_by_hand(measured: Measured, way: Way, hands: Sequence[ByHand]) -> tuple[str, ...]:
    """The same heads by hand, and how often the product was quicker on one and the same head."""
    wanted = measured.cell.quicker if way == "dividing" else None
    pairs = list(zip(measured.outcomes, hands, strict=True))
    won = sum(not ours.lost and ours.minutes < theirs.minutes for ours, theirs in pairs)
    quicker = won / len(pairs)
    return (
        measured.cell.key,
        WAYS[way],
        _mean(spread([each.minutes for each in hands])),
        _mean(spread([each.moves for each in hands])),
        str(percentile([each.moves for each in hands], 0.99)),
        f"{spread([each.readings for each in hands]).mean:.1f}",
        f"{sum(each.inside for each in hands) / len(hands):.1%}",
        f"{quicker:.1%}",
        "" if wanted is None else f"{wanted:.0%}",
        "" if wanted is None else _YES[quicker >= wanted],
    )


def _mean(of: Spread) -> str:
    return f"{of.mean:.2f} ± {of.error:.2f}"


def _to_reach(figure: float | None) -> str:
    return "" if figure is None else f"{figure:g}"


def _rule(cell: Cell) -> str:
    """The rule, and the share that it asks for."""
    files = cell.series.files
    return f"simple {files.share:g}" if files.rule == "simple" else files.rule


def reached(measured: Measured) -> bool | None:
    """Whether every figure of the cell was kept to; None when it has none."""
    cell = measured.cell
    at_most = (
        (cell.mean, measured.mean),
        (cell.most, measured.most),
        (cell.minutes, measured.minutes.mean),
        (cell.knocked, measured.knocked),
        (0.0 if cell.ends else None, len(measured.lost)),
        (0.0 if cell.ends else None, sum(each.worse > 1 for each in measured.outcomes)),
    )
    at_least = (
        (cell.truly, measured.inside),
        (cell.named, measured.named),
        (cell.undecided, measured.verdict("cannot-be-decided")),
    )
    kept = [found <= figure for figure, found in at_most if figure is not None]
    kept += [found >= figure for figure, found in at_least if figure is not None]
    return all(kept) if kept else None


def _reached(measured: Measured) -> str:
    return _YES[reached(measured)]


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
