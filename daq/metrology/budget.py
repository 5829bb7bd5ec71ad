"""From the parts of an uncertainty to the whole, term by term, to JCGM 100 (the GUM)."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from daq.metrology.student import LEAST_DOF, t_quantile, whole_dof
from daq.words import Said


@dataclass(frozen=True, slots=True)
class Term:
    """One part of a result's uncertainty.

    `u_mm` is the standard uncertainty of the result, mm, that this part causes: its own,
    times how strongly the result follows it. `dof` are its degrees of freedom; None
    stands for infinitely many. `name` says what it is, `note` where the number comes from.
    A part that `cancels` is named so that nobody looks for it in vain; it has `u_mm` zero.

    Raises:
        ValueError: `u_mm` or `dof` cannot be, or a part that cancels is not zero.
    """

    name: Said
    u_mm: float
    dof: float | None = None
    note: Said | None = None
    cancels: bool = False

    @property
    def code(self) -> str:
        """The code of what it is."""
        return self.name.code

    def __post_init__(self) -> None:
        """Refuse numbers that cannot be an uncertainty."""
        if not (math.isfinite(self.u_mm) and self.u_mm >= 0.0):
            raise ValueError(f"{self.code}: found {self.u_mm} mm; allowed: 0 mm or more")
        if self.dof is not None and not (math.isfinite(self.dof) and self.dof >= LEAST_DOF):
            raise ValueError(
                f"{self.code}: found {self.dof} degrees of freedom; allowed: "
                f"{LEAST_DOF} or more, or none given for infinitely many"
            )
        if self.cancels and self.u_mm != 0.0:
            raise ValueError(f"{self.code}: it cancels, so its uncertainty is 0 mm")


@dataclass(frozen=True, slots=True)
class Budget:
    """All parts of a result's uncertainty and what they come to.

    `u_mm` is the combined standard uncertainty, mm; `dof` its effective degrees of
    freedom as they come out (None: infinitely many); `expanded_mm` = `k` × `u_mm` is the
    half-width of the interval that holds the true value with probability `coverage`.
    """

    terms: tuple[Term, ...]
    u_mm: float
    dof: float | None
    k: float
    expanded_mm: float
    coverage: float = 0.95


def combine(terms: Sequence[Term], coverage: float = 0.95) -> Budget:
    """Return the budget of these parts, taken as independent of each other.

    Root of the sum of squares (JCGM 100, 5.1.2), effective degrees of freedom by Welch
    and Satterthwaite (G.4.1), k from Student's t with those cut to whole ones.

    Raises:
        ValueError: `coverage` is not between 0 and 1.
    """
    if not 0.0 < coverage < 1.0:
        raise ValueError(f"coverage: found {coverage}; allowed: a probability between 0 and 1")
    u_mm = math.hypot(*(term.u_mm for term in terms))
    dof = effective(((term.u_mm, term.dof) for term in terms), u_mm)
    k = coverage_factor(dof, coverage)
    return Budget(tuple(terms), u_mm, dof, k, k * u_mm, coverage)


def coverage_factor(dof: float | None, coverage: float = 0.95) -> float:
    """Return k: from Student's t with the degrees of freedom cut to whole ones; None: many."""
    return t_quantile(0.5 + 0.5 * coverage, whole_dof(dof))


def effective(parts: Iterable[tuple[float, float | None]], u: float) -> float | None:
    """Return the effective degrees of freedom of `u`, which these parts come to; None: infinite.

    Each part is its standard uncertainty with its degrees of freedom (JCGM 100, G.4.1).
    """
    if u == 0.0:
        return None
    doubt = math.fsum((part / u) ** 4 / dof for part, dof in parts if dof is not None)
    return 1.0 / doubt if doubt > 0.0 and math.isfinite(1.0 / doubt) else None
