"""What is left loose or in the spindle, in words, until somebody says that it is put right."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce

from daq.audit.parts import Unsafe
from daq.words import Said, said


@dataclass(frozen=True, slots=True)
class NotSafe:
    """What is left, what is to be done about it, and that it was done."""

    title: Said
    todo: Said
    done: Said


def not_safe(unsafe: Unsafe) -> NotSafe:
    """What is left unsafe in words."""
    names = [bolts.removeprefix("the ") for bolts in unsafe.loose]
    left = [said("are-loose", bolts=name) for name in names]
    by = unsafe.drawbar
    arm, out, take = (
        (
            said("gauge-in-the-way"),
            said("gauge-is-out", drawbar=by),
            said("take-gauge-out", drawbar=by),
        )
        if unsafe.gauge
        else (
            said("arm-in-spindle"),
            said("arm-is-out", drawbar=by),
            said("take-arm-out", drawbar=by),
        )
    )
    left += [arm] * unsafe.arm
    tight = tuple(said("name", name=bolts) for bolts in unsafe.loose)
    todo = said("put-right", bolts=tight, drawbar=by) if tight else take
    done = [*(said("are-tight", bolts=name) for name in names), out]
    return NotSafe(
        said("not-safe", left=listed(left)), todo, said("all-put-right", done=listed(done))
    )


def listed(parts: Sequence[Said]) -> Said:
    """Several things in a row, a comma between them."""
    return reduce(lambda before, each: said("list-more", before=before, next=each), parts)
