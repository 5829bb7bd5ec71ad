"""The serial ports: which gauge's file names each, who has it open, and whether it has a twin."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Final

from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.doctor.processes import Process, node, openers, recorder
from daq.doctor.shop import gauges, port_of
from daq.gauges.config import GaugeConfig
from daq.gauges.errors import LinkError
from daq.gauges.identity import SERIAL_TREE, SYSFS, Identity
from daq.gauges.ports_list import Port, ports
from daq.gauges.sharing import apart
from daq.words import said

ABOUT: Final = "ports"


def look_at_ports(patient: Patient) -> Iterator[Diagnosis]:
    """A line for each port there is, or that a gauge's file names."""
    named = {
        key: replace(gauge, line=replace(gauge.line, port=str(path)))
        for key, gauge in gauges(patient).items()
        if (path := port_of(gauge, patient)) is not None
    }
    service = recorder(patient)
    held: dict[tuple[int, int] | None, list[Process]] = {}
    for device, one in openers(patient):
        held.setdefault(device, []).append(one)
    found = ports(named, patient.at(SERIAL_TREE))
    for port in found:
        others = [
            p
            for p in held.get(node(Path(port.device)), ())
            if service is None or p.pid != service.pid
        ]
        yield _of(port, others, named, patient)
    if not found:
        yield fine(ABOUT, said("doctor-no-port"))


def _of(
    port: Port, others: list[Process], named: dict[str, GaugeConfig], patient: Patient
) -> Diagnosis:
    who = ", ".join(port.gauges)
    if not Path(port.device).exists():
        return look_here(
            ABOUT, said("doctor-port-gone", gauges=who, port=named[port.gauges[0]].line.port),
            said("doctor-plug-in"),
        )  # fmt: skip
    if not port.gauges:
        name = next(iter((*port.by_id, *port.by_path)), port.device)
        return fine(ABOUT, said("doctor-port-unnamed", port=name))
    if others:
        one = others[0]
        found = said("doctor-port-held", port=port.device, name=one.name, pid=str(one.pid))
        return look_here(ABOUT, found, said("doctor-end-other", pid=str(one.pid)))
    if apart({gauge: named[gauge] for gauge in port.gauges}):
        return look_here(
            ABOUT, said("doctor-port-twice", port=port.device, gauges=who), said("doctor-own-port")
        )
    its = named[port.gauges[0]].line.port
    identity = Identity(its, sysfs=patient.at(SYSFS))
    try:
        identity.verify(Path(its).stat().st_rdev)
    except LinkError as error:
        return look_here(ABOUT, error.say, said("doctor-name-socket"))
    return fine(ABOUT, said("doctor-port", port=port.device, gauge=who))


LOOK = look_at_ports
