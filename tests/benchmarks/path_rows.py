"""How many files and calls a press passes, from its request to its answer.

    python tests/benchmarks/path_rows.py

Runs the real demo in this process with a profile hook on every thread, works the practice mill
over HTTP to the end of its first sweep, and counts the project's own files and calls of each
press: of a plain take, and of the one that closes the sweep. The decider's turns while a take
settles are counted, too, and whoever follows the ledger; the rooms of gauges and mill are not.
"""

import datetime
import json
import os
import signal
import sys
import tempfile
import threading
import time
import urllib.error
import urllib.request
import uuid
from collections import Counter
from pathlib import Path

import daq
from daq import cli
from daq.virtual.orders import payload

ROOT = Path(daq.__file__).resolve().parents[1]
OURS = (str(ROOT / "daq"), str(ROOT / "web"))
OTHERS = ("/gauges/", "/virtual/")
PORT = 8697
MACHINE = f"http://localhost:{PORT}/api/machines/practice-mill"
SETTLES_S = 1.5
SERIAL_NUMBER = "P-0417"

Passed = Counter[str]


class Counted:
    """The calls of the presses under way."""

    def __init__(self) -> None:
        self.passed: Passed | None = None

    def hook(self, frame, event, _) -> None:
        name = frame.f_code.co_filename
        if self.passed is None or event != "call" or not name.startswith(OURS):
            return
        if not any(part in name for part in OTHERS):
            self.passed[name] += 1


def asked(path: str, body: object = None):
    data = None if body is None else json.dumps(body).encode()
    request = urllib.request.Request(MACHINE + path, data, {"Content-Type": "application/json"})
    try:
        with urllib.request.urlopen(request, timeout=60) as answer:
            return json.load(answer)
    except urllib.error.HTTPError as error:
        return json.load(error)


def by_hand(verb: str, **args: object) -> None:
    asked("/practice", {"verb": verb, "args": args})
    time.sleep(SETTLES_S)


def step(counted: Counted) -> str:
    """Do what the console says, press, and say what that passed; the step it was."""
    shown = asked("/snapshot")
    page = shown["pages"]["console"]
    action = next((each for each in page["actions"] if each["primary"]), page["actions"][0])
    if page["do"]["kind"] in ("free", "push"):
        by_hand(page["do"]["kind"])
    if page["do"]["kind"] == "swing":
        by_hand("set")
        by_hand("swing", position=page["do"]["position"])
    filled = payload(action, "T. Person", datetime.date.today(), lambda: SERIAL_NUMBER)
    body = {"id": str(uuid.uuid4()), "kind": action["kind"], "payload": filled}
    counted.passed = passed = Passed()
    ack = asked("/commands", body)
    counted.passed = None
    assert ack["accepted"], ack
    print(f"{page['step']:11} {action['kind']:9} {len(passed):4} files {passed.total():6} calls")
    return page["step"]


def work(counted: Counted) -> None:
    try:
        while step(counted) != "park":
            pass
    finally:
        os.kill(os.getpid(), signal.SIGINT)


def main() -> None:
    counted = Counted()
    threading.setprofile(counted.hook)

    def told(address: str) -> None:
        threading.setprofile(None)
        threading.Thread(target=work, args=(counted,)).start()

    cli._tell = told
    with tempfile.TemporaryDirectory() as folder:
        args = ["--no-browser", "--port", str(PORT), "--speed", "5", "--seed", "3"]
        sys.exit(cli.main(["demo", "--data", folder, *args]))


if __name__ == "__main__":
    main()
