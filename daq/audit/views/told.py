"""An event in a few words, for telling a screen what changed; and a press that did nothing."""

import re

from daq.words import Event

_SENTENCE = re.compile(r".*?[.!?](?=\s|$)", re.DOTALL)
_LONGEST = 110
"""Characters of a refusal that stand on a wall in letters to be read from the machine."""

_WORDS = {
    "AuditOpened": "an audit was opened",
    "Prepared": "the machine was prepared",
    "Restarted": "the service was started again",
    "MadeSafe": "the machine was said to be safe",
    "FreeRead": "the free reading was taken",
    "Pushed": "the contact was pushed",
    "ReadingTaken": "a reading was taken",
    "SweepDone": "a sweep was finished",
    "Parked": "the parked reading was taken",
    "Answered": "a question was answered",
    "Zeroed": "the number went to zero",
    "BaseRead": "the parked spot was read again",
    "Loosened": "bolts were cracked",
    "StopDoubted": "a stop far from the stop-at was asked about",
    "Moved": "an adjuster was turned",
    "CheckDone": "a pair check was finished",
    "Tightened": "bolts were tightened",
    "BoltPulled": "a bolt was pulled up",
    "OffScale": "the head is off the gauge's scale",
    "BroughtCloser": "the head was brought closer",
    "ResponseUpdated": "something was learned about the head",
    "SweepWanted": "another sweep was asked for",
    "TouchWanted": "the touch test is to be done again",
    "StopHere": "the head is left as it is",
    "Cleared": "the machine was cleared",
    "Signed": "the audit was signed",
    "Abandoned": "the audit was abandoned",
    "Voided": "the last step was taken back",
    "GaugeNoted": "something about the gauge was noticed",
    "GaugeChecked": "the gauge was checked against known lengths",
    "GaugeFault": "the gauge stopped giving readings",
    "GaugeBack": "the gauge gives readings again",
}


def told(event: Event) -> str:
    """The event in words, with the position or axis it concerns."""
    words = _WORDS.get(event.type, event.type)
    reading = event.data.get("reading")
    place = reading.get("position") if isinstance(reading, dict) else event.data.get("axis")
    return f"{words} ({place})" if place else words


def not_done(kind: str, reason: str) -> str:
    """That a press did nothing, and why, short enough for the wall: the first sentence."""
    first = _SENTENCE.match(reason)
    why = first[0] if first else reason
    if len(why) > _LONGEST:
        why = f"{why[:_LONGEST].rsplit(' ', 1)[0]}…"
    return f"{'NOT TAKEN' if kind == 'take' else 'Not done'}: {why}"
