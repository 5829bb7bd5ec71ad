"""An event in a few words, for telling a screen what changed; and a press that did nothing."""

from daq.audit.stages import TOOK
from daq.words import Event, Said, said

_WORDS = {
    "AuditOpened": said("audit-was-opened"),
    "Prepared": said("machine-was-prepared"),
    "Restarted": said("service-was-restarted"),
    "MadeSafe": said("machine-was-made-safe"),
    "AnswerKept": said("answer-was-kept"),
    "Addendum": said("addendum-was-made"),
    "ReportAmended": said("report-was-amended"),
    "HandedOver": said("audit-was-handed-over"),
    "FreeRead": said("free-reading-was-taken"),
    "Pushed": said("contact-was-pushed"),
    "ReadingTaken": said("reading-was-taken"),
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
    "ClockStepped": said("clock-stepped"),
    "AuditAttested": said("audit-was-attested"),
    "SamplesLetGo": said("samples-let-go"),
    "GaugeFault": said("gauge-stopped"),
    "GaugeBack": said("gauge-is-back"),
}


_OF_STAGES = {cls.__name__: took.told for cls, took in TOOK.items()}


def told(event: Event) -> Said:
    """The event in words, with the position or axis it concerns."""
    words = _WORDS.get(event.type) or _OF_STAGES.get(event.type) or said("name", name=event.type)
    reading = event.data.get("reading")
    place = reading.get("position") if isinstance(reading, dict) else None
    if place:
        return said("told-where", what=words, where=said("told-place", place=place))
    axis = None if isinstance(reading, dict) else event.data.get("axis")
    if axis:
        return said("told-where", what=words, where=said("told-axis", axis=axis))
    return words


def not_done(kind: str, why: Said) -> Said:
    """That a press did nothing, and why; or that nobody knows whether it did."""
    if isinstance(why, Said) and why.code == "was-not-known":
        return why
    return said("not-taken", why=why) if kind == "take" else said("not-done", why=why)
