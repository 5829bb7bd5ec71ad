"""From what was heard to the frame table that explains it best, its scale and direction."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import chain, pairwise
from math import gcd
from typing import Final

from daq.gauges.learn import bcd, bits, judge, moves, scale, text
from daq.gauges.learn.cutting import Cut, cuts
from daq.gauges.learn.evidence import Evidence, Proposal, Table
from daq.gauges.learn.extra import Extra, in_bytes
from daq.units import MM_PER
from daq.words import Unit

_ROOM: Final = 2.0
"""Frames must hold numbers up to so many times the travel: a gauge may be preset."""
_PREFERRED: Final = {"text": 0.2, "bcd": 0.1, "bits": 0.0}
"""What keeps to more rules by chance less often."""
_FEW: Final = 12
"""By chance so many numbers are all even once in four thousand times."""
_ABOUT: Final = 0.15
_CLEAR: Final = 0.9
_LEAST_EXTRA: Final = 0.7
_PROVED: Final = 0.05
_EXTRA: Final = 0.02
_EXTRA_BYTE: Final = 0.005
_IDLE: Final = 0.03


def propose(heard: Evidence) -> list[Proposal]:
    """Return the proposals that explain anything of what was heard, the best first."""
    found = _judged(heard, _tables(heard, 0, 0))
    for more in (_texts_with_extras(heard), _with_extras(heard, 0, 0)):
        if not any(each.proved or each.score >= _CLEAR for each in found):
            found += _judged(heard, more)
    found = sorted(_doubted(found), key=rank, reverse=True)
    if not found:
        return []
    best = _fitting(found, heard)
    if best.table["shape"] != "text" and best.resolution:
        best = _widened(best, heard)
    return [best, *found[1:]]


def _doubted(found: Sequence[Proposal]) -> list[Proposal]:
    """Return the proposals; not proved is one that leaves out what may yet be digits."""
    return [
        replace(each, proved=each.proved and not any(_rivals(each, other) for other in found))
        for each in found
    ]


def _rivals(one: Proposal, other: Proposal) -> bool:
    """Return whether another proposal, of more digits, is neither proved nor out of question."""
    if one.extra is None or not one.extra.beside or other.proved or other.score < one.score:
        return False
    fewer = other.extra is None or (
        other.extra.behind == one.extra.behind and other.extra.size < one.extra.size
    )
    return fewer and other.table["shape"] == one.table["shape"]


def _fitting(found: Sequence[Proposal], heard: Evidence) -> Proposal:
    """Return the best proposal, settled: of those about as good, one that the push fits."""
    best = settled(found[0], heard)
    for each in found:
        if best.resolution or each.score < found[0].score - _ABOUT:
            break
        if (other := settled(each, heard)).resolution:
            return other
    return best


def _widened(best: Proposal, heard: Evidence) -> Proposal:
    """Return the like of a proposal whose frames hold all numbers of the travel."""
    counts = round(_ROOM * heard.travel_mm / _size_mm(best.table))
    needed = {"bcd": len(str(counts)), "bits": counts.bit_length()}[best.table["shape"]]
    tables = (_with_extras if best.extra else _tables)(heard, needed, needed)
    wide = [
        each
        for each in _judged(heard, (one for one in tables if one[1] == best.extra))
        if each.table["shape"] == best.table["shape"] and each.score >= best.score - _ABOUT
    ]
    # In which order bytes come cannot be seen while one of them changes: a number that has
    # room to grow is then likelier than one that has none.
    wide.sort(key=lambda each: min(_places(each.table), needed), reverse=True)
    return _fitting(wide, heard) if wide else best


def _places(table: Table) -> int:
    """Return how many digits or bits the number in a layout has."""
    numbers = (item.split() for item in table["layout"] if item.startswith(("digits", "magnit")))
    return sum(int(words[1]) if len(words) > 1 else 1 for words in numbers)


def _tables(heard: Evidence, digits: int, width: int) -> Iterator[tuple[Table, None]]:
    """Yield frame tables in which all that changes belongs to the number."""
    texts = [_trial(table) for table in text.guesses(heard.pieces)]
    yield from ((table, None) for table in texts)
    for cut in cuts(heard.pieces):
        for table in _laid_out(cut, heard, digits, width):
            yield table, None
    for table in texts:
        if "length" in table and heard.paused:
            yield table | {"apart": "pause"}, None


def _texts_with_extras(heard: Evidence) -> Iterator[tuple[Table, Extra]]:
    """Yield tables of text in which something at one end is no part of the number, and what."""
    for guess, extra in text.with_extras(heard.pieces):
        table = _trial(guess)
        yield table, extra
        if "length" in table and heard.paused:
            yield table | {"apart": "pause"}, extra


def _with_extras(heard: Evidence, digits: int, width: int) -> Iterator[tuple[Table, Extra]]:
    """Yield the like of frames that have a layout."""
    for cut in cuts(heard.pieces):
        for extra in in_bytes(cut.frames):
            for table in _laid_out(replace(cut, extra=extra), heard, digits, width):
                yield table, extra


def _laid_out(cut: Cut, heard: Evidence, digits: int, width: int) -> Iterator[Table]:
    shapes = [bcd.guesses(cut, digits)]
    if cut.extra is None or not b"".join(cut.frames).isascii():
        shapes.append(bits.guesses(cut, width))
    for table in map(_trial, chain.from_iterable(shapes)):
        yield table
        if cut.paused and heard.paused:
            yield table | {"apart": "pause"}


def _trial(table: Table) -> Table:
    """Return a table that can be decoded, with a unit and a scale that are not settled yet."""
    if table["shape"] == "text":
        if "unit" in table:
            table = table | {"unit": "mm"}
        pointed = "." in table["pattern"].partition("<value>")[2].partition(")")[0]
        pointed = pointed or table.get("decimal") == ","
        return table if pointed else table | {"places": 0}
    return table | {"unit": "mm"} | ({"places": 0} if table["shape"] == "bcd" else
                                     {"step": {"mm": 1.0}})  # fmt: skip


def _judged(heard: Evidence, tables: Iterable[tuple[Table, Extra | None]]) -> list[Proposal]:
    found = []
    for table, extra in tables:
        fit, good = judge.score(table, heard.worked, heard.pieces)
        if not good or (extra and fit < _LEAST_EXTRA):
            continue
        if (proved := moves.seen(table, heard, extra)) is not False:
            still = moves.idle(table, heard)
            found.append(Proposal(table, fit, good, proved=bool(proved), extra=extra, idle=still))
    return sorted(found, key=rank, reverse=True)


def rank(proposal: Proposal) -> tuple[float, bool]:
    """Return what proposals are compared by."""
    fit = proposal.score
    if fit:
        fit += _PREFERRED[proposal.table["shape"]] + _PROVED * proposal.proved
    if extra := proposal.extra:
        fit -= _EXTRA + _EXTRA_BYTE * extra.size + _IDLE * proposal.idle
    return fit, "apart" not in proposal.table


def settled(proposal: Proposal, heard: Evidence) -> Proposal:
    """Return a proposal with its direction, unit and scale, as far as the push shows them."""
    table = _signed(proposal.table, heard)
    if _denied(table, heard):
        return replace(proposal, table=table).noted(
            "The gauge's face shows a minus where these frames hold none: its number is sent in "
            "another way."
        )
    rest, pushed = judge.middle(table, heard.rest), judge.middle(table, heard.pushed)
    if rest is None or pushed is None or heard.push_mm is None or rest == pushed:
        return replace(proposal, table=table).noted(
            "No push was heard: direction, unit and scale are not known."
        )
    change = pushed - rest
    proposal = replace(proposal, counts_up=change > 0.0)
    if table["shape"] == "text" and "places" not in table:
        proposal = _read(replace(proposal, table=table), change, heard.push_mm)
    else:
        proposal = _counted(replace(proposal, table=table), change, heard.push_mm)
    return _resolved(_sign_noted(proposal, heard), heard) if _known(proposal) else proposal


def _known(proposal: Proposal) -> bool:
    return not any("fits no unit" in note for note in proposal.notes)


def _read(proposal: Proposal, change: float, push_mm: float) -> Proposal:
    """Settle or check the unit of a number that is sent with its decimal sign."""
    table = proposal.table
    if "unit" in table:
        unit = scale.of_number(change, push_mm)
        if unit is not None:
            return replace(proposal, table=table | {"unit": unit})
        return proposal.noted(_misfit(change, push_mm))
    return proposal


def _counted(proposal: Proposal, change: float, push_mm: float) -> Proposal:
    """Settle what a count or a digit is worth."""
    table, counts = proposal.table, round(change)
    if table["shape"] == "bits":
        for each in scale.of_counts(counts, push_mm)[:1]:
            scaled = {"unit": each.unit, "step": {each.unit: each.size}}
            return replace(proposal, table=table | scaled)
    else:
        for each in scale.places_for(counts, push_mm)[:1]:
            unit = {"unit": each.unit} if "unit" in table else {}
            return replace(proposal, table=table | unit | {"places": each.places})
    return proposal.noted(_misfit(change, push_mm))


def _misfit(change: float, push_mm: float) -> str:
    return f"The number changed by {change:g} in a push of {push_mm:g} mm, which fits no unit."


def _signed(table: Table, heard: Evidence) -> Table:
    """Exchange plus and minus where the gauge's face was seen to show the other one."""
    rest = judge.middle(table, heard.rest)
    if heard.minus_at_rest is None or not rest or (rest < 0.0) == heard.minus_at_rest:
        return table
    if "signs" not in table:
        return table
    other = {"+": "-", "-": "+"}
    return table | {"signs": {symbol: other[sign] for symbol, sign in table["signs"].items()}}


def _denied(table: Table, heard: Evidence) -> bool:
    """Return whether the face showed a minus that the frames cannot say."""
    rest = judge.middle(table, heard.rest)
    unsigned = table["shape"] != "text" and not ("signs" in table or "coding" in table)
    return unsigned and bool(heard.minus_at_rest) and bool(rest)


def _sign_noted(proposal: Proposal, heard: Evidence) -> Proposal:
    table = proposal.table
    if "signs" in table and heard.minus_at_rest is None:
        return proposal.noted(
            "Which symbol is minus was not told, and the higher was taken: compare with the "
            "gauge's face. If it is the other one, exchange the signs and counts_up."
        )
    if table["shape"] == "text" or "signs" in table or "coding" in table:
        return proposal
    return proposal.noted(
        "The number never passed through zero: how a minus is sent is not known, and frames "
        "with one are refused. Learn again with the zero inside the push."
    )


def _resolved(proposal: Proposal, heard: Evidence) -> Proposal:
    """Find one step of the last digit from the numbers that were seen."""
    found = judge.decoded(proposal.table, heard.pieces) or []
    decimals = max((_decimals(each.text) for each in found), default=0)
    seen = sorted({round(each.value * 10**decimals) for each in found})
    # From one to the next: a gauge that was preset counts its steps from any number.
    step = gcd(*(b - a for a, b in pairwise(seen))) if len(seen) > _FEW else 1
    if proposal.table["shape"] == "bits":
        unit: Unit = proposal.table["unit"]
        return replace(proposal, resolution=f"{proposal.table['step'][unit]:.9f}".rstrip("0") +
                       f" {unit}")  # fmt: skip
    unit = found[-1].unit if found else "mm"
    return replace(proposal, resolution=f"{step * 10.0**-decimals:.{decimals}f} {unit}")


def _decimals(shown: str) -> int:
    digits = shown.strip("+- ").replace(",", ".")
    return len(digits.partition(".")[2])


def _size_mm(table: Table) -> float:
    """Return what a count, or one in the last place, is worth."""
    unit: Unit = table["unit"]
    size: float = 10.0 ** -table["places"] if table["shape"] == "bcd" else table["step"][unit]
    return size * MM_PER[unit]


def best(proposals: Sequence[Proposal], least: float) -> Proposal | None:
    """Return the best proposal if it explains at least so much."""
    return proposals[0] if proposals and proposals[0].score >= least else None
