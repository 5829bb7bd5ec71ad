"""A line to the running service in the own wall's name, for commands on the same computer."""

import http.client
import json
import time
from contextlib import closing
from http import HTTPStatus
from pathlib import Path
from typing import Any, Final
from urllib.parse import urlencode, urlsplit

from daq.service.rights import wall
from daq.words import SaidTrouble, said

ANSWERS_S: Final = 10.0
TAKEN: Final = HTTPStatus.SERVICE_UNAVAILABLE
"""An answer that is a report all the same: the service is not well, and says how."""


class OwnLine:
    """Asks as the Pi's own wall. It comes in by a ticket once, and keeps what it was given."""

    def __init__(self, data: Path, address: str, answers_s: float = ANSWERS_S) -> None:
        """`data` has the own wall's key; `address` is where the service serves its pages.

        It has `answers_s` for each answer.

        Raises:
            SaidTrouble: that is no such address.
        """
        there = urlsplit(address)
        if there.scheme != "http" or not there.hostname:
            raise SaidTrouble(said("address-not-so", found=address))
        self._host, self._port = there.hostname, there.port or 80
        self._data = data
        self._answers_s = answers_s
        self._address = address.rstrip("/")
        self._cookie = ""
        self._token = ""

    def link(self, machine: str = "") -> str:
        """What lets a browser in, once, within a minute. Raises SaidTrouble without a key."""
        ticket = wall.ticket(wall.key(self._data), time.monotonic_ns())
        query = {"ticket": ticket} | ({"machine": machine} if machine else {})
        return f"{self._address}/own?{urlencode(query)}"

    def enter(self) -> None:
        """Come in anew, by a ticket. Errors as for `get`, and as for `link`."""
        self._token = ""
        self._cookie = self._asked("GET", self.link().removeprefix(self._address))[0]

    def get(self, path: str) -> Any:  # noqa: ANN401 - JSON
        """What the service answers.

        Raises:
            SaidTrouble: it refuses. OSError, http.client.HTTPException, ValueError: it does not
                answer, or something else than a service does.
        """
        return self._asked("GET", path)[1]

    def post(self, path: str) -> Any:  # noqa: ANN401 - JSON
        """The same of a press that says nothing more."""
        self._token = self._token or self.get("/api/screen").get("token", "")
        return self._asked("POST", path)[1]

    def _asked(self, method: str, path: str) -> tuple[str, Any]:
        line = http.client.HTTPConnection(self._host, self._port, timeout=self._answers_s)
        sent = {"Cookie": self._cookie, "X-Page-Token": self._token}
        sent["Content-Type"] = "application/json"
        with closing(line):
            line.request(method, path, "{}" if method == "POST" else None, sent)
            with line.getresponse() as answer:
                body = answer.read()
                if answer.status == HTTPStatus.TOO_MANY_REQUESTS:
                    wait_s = int(answer.getheader("Retry-After") or 0)
                    raise SaidTrouble(said("codes-spoilt", seconds=wait_s))
                if answer.status >= HTTPStatus.BAD_REQUEST and answer.status != TAKEN:
                    raise SaidTrouble(said("service-refuses", status=answer.status))
                cookie = (answer.getheader("Set-Cookie") or "").partition(";")[0]
                return cookie, json.loads(body) if body else {}
