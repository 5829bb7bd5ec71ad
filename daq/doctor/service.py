"""Asks the running service how it is: over loopback, in the own wall's name."""

import http.client
import socket
import struct
from typing import Final

from daq.doctor.patient import ANSWERS_S, AtWork, Patient, at_work
from daq.doctor.processes import opened, recorder
from daq.service.own_line import OwnLine
from daq.service.rights import wall
from daq.words import SaidTrouble

_LISTENS: Final = "0A"
"""proc(5), /proc/net/tcp: the state of a socket that waits for connections."""


def asked_service(patient: Patient) -> AtWork | None:
    """What it knows; None where none runs, it does not answer, or may not be asked by this user."""
    try:
        one = recorder(patient)
        found = one and listens_at(patient, one.pid)
        if not found:
            return None
        host, port = found
        address = f"http://[{host}]:{port}" if ":" in host else f"http://{host}:{port}"
        line = OwnLine(patient.data, address, ANSWERS_S)
        if (patient.data / wall.NAME).exists():  # else nobody is asked who they are
            line.enter()
        told = line.get("/healthz")
        return at_work(told["service"], told["streams"], told["most_streams"])
    except (OSError, ValueError, LookupError, TypeError, http.client.HTTPException, SaidTrouble):
        return None


def listens_at(patient: Patient, pid: int) -> tuple[str, int] | None:
    """Where a process waits for connections of this computer; None where that is not to be seen."""
    own = {link for _, link in opened(patient, pid)}
    for table in ("tcp", "tcp6"):
        for line in (patient.read(f"/proc/{pid}/net/{table}") or "").splitlines()[1:]:
            fields = line.split()
            if len(fields) > 9 and fields[3] == _LISTENS and f"socket:[{fields[9]}]" in own:
                host, _, port = fields[1].partition(":")
                return _host(host), int(port, 16)
    return None


def _host(words: str) -> str:
    """An address, which the kernel writes as numbers of 32 bits in the order of this computer's
    bytes; where it stands for all there are, this computer's own."""
    numbers = [int(words[at : at + 8], 16) for at in range(0, len(words), 8)]
    family = socket.AF_INET if len(numbers) == 1 else socket.AF_INET6
    found = socket.inet_ntop(family, struct.pack(f"={len(numbers)}I", *numbers))
    return {"0.0.0.0": "127.0.0.1", "::": "::1"}.get(found, found)
