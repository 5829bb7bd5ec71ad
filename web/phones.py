"""Where a phone finds these pages."""

import socket
from dataclasses import dataclass
from typing import Final

from flask import current_app, request

REACHED: Final = "OTHERS_REACH_IT"
"""Of the application: whether it answers to more than the computer it runs on."""

_ELSEWHERE: Final = ("192.0.2.1", 9)
"""An address that is nobody's (RFC 5737): the way there is the way to the network. Nothing is
sent."""


@dataclass(frozen=True)
class ForPhones:
    """Whether others reach these pages at all, and at which address; "" in no network."""

    reached: bool
    address: str


def for_phones() -> ForPhones:
    """What to type on a phone."""
    if not current_app.config.get(REACHED, False):
        return ForPhones(reached=False, address="")
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        try:
            asked.connect(_ELSEWHERE)
            here = str(asked.getsockname()[0])
        except OSError:
            return ForPhones(reached=True, address="")
    return ForPhones(reached=True, address=f"http://{here}:{request.environ['SERVER_PORT']}/")
