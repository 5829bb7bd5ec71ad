"""What signed verdicts were worth, as the trend page and the API tell it."""

from collections.abc import Iterable
from functools import reduce

from daq.audit.history import OVER_MM
from daq.audit.stated import Count, Reliability
from daq.metrology.reliability import BANDS, FEWEST, LEARNS, wilson
from daq.units import FINE
from daq.words import Said, Shown, Unit, said
from daq.words.reliability import BandView, LeftOutView, ReliabilityView

_ASKED = BANDS.index(0.90)
"""The band that the sentence is about: sure, and yet wrong often enough to be held to it."""


def of_machine(found: Reliability, unit: Unit) -> ReliabilityView:
    """A machine's, with how far its head goes by itself, in that unit."""
    side, nod = found.going.values()
    known = min(side.pairs, nod.pairs) >= LEARNS
    if not known:
        allows = said("going-unknown", pairs=min(side.pairs, nod.pairs), fewest=LEARNS)
        return _view(found, allows, None, None)
    allows = said(
        "going-allowed",
        side=Shown(side.sd_mm, unit, FINE[unit]),
        nod=Shown(nod.sd_mm, unit, FINE[unit]),
        over=Shown(OVER_MM, unit, FINE[unit] - 3),
        unit=unit,
    )
    return _view(found, allows, side.sd_mm, nod.sd_mm)


def of_shop(every: Iterable[Reliability]) -> ReliabilityView:
    """All machines' together."""
    total = reduce(Reliability.plus, every, Reliability())
    return _view(total, said("going-of-each"), None, None)


def _view(
    found: Reliability, allows: Said, side_mm: float | None, nod_mm: float | None
) -> ReliabilityView:
    left_out = tuple(
        LeftOutView(why, audits, said("not-counted", why=why, audits=audits))
        for why, audits in found.left_out.items()
    )
    bands = tuple(_band(at, count) for at, count in enumerate(found.bands))
    return ReliabilityView(
        bands, left_out, FEWEST, _sentence(found.bands[_ASKED]), side_mm, nod_mm, allows
    )


def _sentence(count: Count) -> Said:
    if count.audits < FEWEST:
        return said("reliability-few", audits=count.audits, fewest=FEWEST)
    low, high = wilson(count.agreed, count.audits)
    return said(
        "reliability-share",
        audits=count.audits,
        share=_percent(count.agreed / count.audits),
        low=_percent(low),
        high=_percent(high),
    )


def _band(at: int, count: Count) -> BandView:
    low, high = BANDS[at], (*BANDS[1:], 1.0)[at]
    stated = said("stated-band", at=_place(at), low=_percent(low), high=_percent(high))
    if count.audits < FEWEST:
        few = said("band-few", audits=count.audits, fewest=FEWEST)
        nothing = (None, None, None, None, None, None)
        return BandView(low, high, count.audits, *nothing, stated, few, None)
    share, as_read = count.agreed / count.audits, count.as_read / count.audits
    least, most = wilson(count.agreed, count.audits)
    return BandView(
        low,
        high,
        count.audits,
        count.agreed,
        share,
        least,
        most,
        count.as_read,
        as_read,
        stated,
        said("band-share", share=_percent(share), low=_percent(least), high=_percent(most)),
        said("percent", of=_percent(as_read)),
    )


def _place(at: int) -> str:
    return "first" if at == 0 else "last" if at == len(BANDS) - 1 else "between"


def _percent(share: float) -> str:
    return f"{100.0 * share:.0f}"
