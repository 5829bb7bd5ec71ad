"""An event in a few words, for telling a screen what changed; and a press that did nothing."""

import re

from daq.words import Event, Said, said

_SENTENCE = re.compile(r".*?[.!?](?=\s|$)", re.DOTALL)
_LONGEST = 110
"""Characters of a refusal that stand on a wall in letters to be read from the machine."""

_WORDS = {
    "AuditOpened": said("audit-was-opened"),
    "Prepared": said("machine-was-prepared"),
    "Restarted": said("service-was-restarted"),
    "MadeSafe": said("machine-was-made-safe"),
    "FreeRead": said("free-reading-was-taken"),
    "Pushed": said("contact-was-pushed"),
    "ReadingTaken": said("reading-was-taken"),
    "StationRead": said("station-was-read"),
    "Measured": said("check-was-finished"),
    "SweepDone": said("sweep-was-finished"),
    "Parked": said("parked-reading-was-taken"),
    "Answered": said("question-was-answered"),
    "Zeroed": said("zero-was-noticed"),
    "BaseRead": said("parked-spot-was-read-again"),
    "Loosened": said("bolts-were-cracked"),
    "StopDoubted": said("stop-was-asked-about"),
    "Moved": said("adjuster-was-turned"),
    "CheckDone": said("pair-check-was-finished"),
    "Tightened": said("bolts-were-tightened"),
    "BoltPulled": said("bolt-was-pulled-up"),
    "OffScale": said("head-is-off-scale"),
    "BroughtCloser": said("head-was-brought-closer"),
    "ResponseUpdated": said("head-was-learned"),
    "SweepWanted": said("sweep-was-asked-for"),
    "TouchWanted": said("touch-was-asked-for"),
    "StopHere": said("head-is-left"),
    "Cleared": said("machine-was-cleared"),
    "Signed": said("audit-was-signed"),
    "Abandoned": said("audit-was-abandoned"),
    "Voided": said("step-was-taken-back"),
    "GaugeNoted": said("gauge-was-noticed"),
    "GaugeChecked": said("gauge-was-checked"),
    "GaugeFault": said("gauge-stopped"),
    "GaugeBack": said("gauge-is-back"),
}


def told(event: Event) -> Said:
    """The event in words, with the position or axis it concerns."""
    words = _WORDS.get(event.type) or said("name", name=event.type)
    reading = event.data.get("reading")
    place = reading.get("position") if isinstance(reading, dict) else None
    if place:
        return said("told-where", what=words, where=said("told-place", place=place))
    axis = None if isinstance(reading, dict) else event.data.get("axis")
    if axis:
        return said("told-where", what=words, where=said("told-axis", axis=axis))
    return words


def not_done(kind: str, reason: str) -> Said:
    """That a press did nothing, and why, short enough for the wall: the first sentence."""
    first = _SENTENCE.match(reason)
    why = first[0] if first else reason
    if len(why) > _LONGEST:
        why = f"{why[:_LONGEST].rsplit(' ', 1)[0]}…"
    return said("not-taken", why=why) if kind == "take" else said("not-done", why=why)
