"""Whether the date can be believed: who set the clock, and what keeps it without power."""

from collections.abc import Iterator
from typing import Final

from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.ledger.errors import LedgerError
from daq.ledger.view import LedgerView
from daq.service.steps import ClockWatch
from daq.words import Stamp, said

ABOUT: Final = "clock"


def clock(patient: Patient) -> Iterator[Diagnosis]:
    """The clock as the record takes it, by the kernel's word, and what it does in a power cut."""
    now, last = patient.clock.stamp(), _last(patient)
    say = ClockWatch(last).say(now, last.utc_us if last else now.utc_us)
    if say is None:
        keeps = any(patient.at("/sys/class/rtc").glob("rtc*"))
        own = said("doctor-own-clock") if keeps else said("doctor-no-own-clock")
        yield fine(ABOUT, said("doctor-clock-set", own=own))
        return
    told = patient.ask(("timedatectl", "show", "--property=NTP")) or ""
    asks = told.strip() == "NTP=yes"
    yield look_here(ABOUT, say, said("doctor-reach-server") if asks else said("doctor-set-clock"))


def _last(patient: Patient) -> Stamp | None:
    """When the record's last row was written; one that cannot be read is told of elsewhere."""
    try:
        with LedgerView.open(patient.data) as view:
            last = view.last()
            event = view.event(last[0]) if last else None
    except LedgerError:
        return None
    return event.stamp if event else None


LOOK = clock
