"""An event in a few words, for lists and for telling a screen what changed."""

from daq.words import Event

_WORDS = {
    "AuditOpened": "an audit was opened",
    "Prepared": "the machine was prepared",
    "FreeRead": "the free reading was taken",
    "Pushed": "the contact was pushed",
    "ReadingTaken": "a reading was taken",
    "SweepDone": "a sweep was finished",
    "Parked": "the parked reading was taken",
    "Answered": "a question was answered",
    "Zeroed": "the gauge was zeroed",
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


def said(event: Event) -> str:
    """The event in words, with the position or axis it concerns."""
    words = _WORDS.get(event.type, event.type)
    reading = event.data.get("reading")
    place = reading.get("position") if isinstance(reading, dict) else event.data.get("axis")
    return f"{words} ({place})" if place else words
