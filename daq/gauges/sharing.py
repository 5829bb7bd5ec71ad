"""Whether gauges whose files name one port can be read from it together."""

import os
from collections.abc import Iterator, Mapping
from dataclasses import fields

from daq.gauges.asking import quiet_s
from daq.gauges.config import GaugeConfig, SerialLine
from daq.settings import found


def apart(gauges: Mapping[str, GaugeConfig]) -> dict[str, list[str]]:
    """Return why gauges cannot share the port they name, by the file they are in.

    Of those that do not go together the first by its name is told nothing, and read.
    """
    together: dict[str, dict[str, GaugeConfig]] = {}
    told: dict[str, list[str]] = {}
    for name, gauge in sorted(gauges.items()):
        others = together.setdefault(_device(gauge.line.port), {})
        told[name] = [why for other in others.items() for why in _clashes(name, gauge, *other)]
        told[name] = told[name] or list(_too_slow({**others, name: gauge}))[:1]
        if not told[name]:
            others[name] = gauge
    return {name: why for name, why in told.items() if why}


def _device(port: str) -> str:
    return os.path.realpath(port) if port.startswith("/") else port


def _clashes(name: str, mine: GaugeConfig, other: str, its: GaugeConfig) -> Iterator[str]:
    """What keeps two gauges from sharing a port, whatever the time it takes."""
    for key in (each.name for each in fields(SerialLine)):
        yield from _unequal(
            f"line.{key}", name, getattr(mine.line, key), other, getattr(its.line, key)
        )
    modes = (mine.talk.mode, its.talk.mode)
    if "asks" in modes:
        yield from _unequal("talk.mode", name, modes[0], other, modes[1])
    sent = [(talk.stepped, talk.asked) for talk in (mine.talk, its.talk)]
    if mine.frame == its.frame and sent[0] == sent[1]:
        yield (
            f"frame: found the same frame in {name} and in {other}, on one port; "
            "allowed: one that tells whose it is, such as by its channel"
        )


def _unequal(key: str, name: str, mine: object, other: str, its: object) -> Iterator[str]:
    if mine != its:
        yield (
            f"{key}: found {found(mine)} in {name} and {found(its)} in {other}, on one port; "
            "allowed: the same in both"
        )


def _too_slow(gauges: Mapping[str, GaugeConfig]) -> Iterator[str]:
    """Whose number would grow too old while the others leave their requests unanswered."""
    talks = {name: gauge.talk for name, gauge in gauges.items() if gauge.talk.mode == "asks"}
    for name, talk in talks.items() if len(talks) > 1 else ():
        others = [each for other, each in talks.items() if other != name]
        lost_s = sum(each.answer_s + quiet_s(each.answer_s, each.pause) for each in others)
        age_s = (talk.interval or 0.0) + lost_s + talk.answer_s
        if talk.stale_s is not None and age_s > talk.stale_s:
            yield (
                f"talk.timeout: found timeouts by which the number of {name} can grow {age_s:g} s "
                f"old while the others on its port do not answer; allowed: {talk.stale_s:g} s, "
                "by shorter ones or a longer interval"
            )
