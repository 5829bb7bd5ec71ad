"""Sets a page in a process of its own: `python -m daq.report.typeset`.

The typesetter keeps what it once worked out for as long as its process lives, which is 45 to 98 MB
a report: a service that runs for months must not. In comes the layout's source behind the length
of a line of JSON, out comes the PDF.
"""

import json
import subprocess
import sys
from threading import Lock
from typing import Final

LONGEST_S: Final = 120.0
"""A report of hundreds of pages takes some seconds."""

_ONE_AT_A_TIME: Final = Lock()
"""Each takes 50 to 100 MB while it lasts, and anybody may ask for eight at once."""


def typeset(layout: bytes, inputs: dict[str, str], at_s: int) -> bytes:
    """Return the PDF of a layout, its document dated `at_s` (UTC, s).

    Raises:
        RuntimeError: it cannot be set; says what the typesetter said.
        TimeoutExpired: it took longer than `LONGEST_S`.
    """
    head = json.dumps({"inputs": inputs, "at": at_s}).encode() + b"\n"
    command = [sys.executable, "-m", __name__]
    with _ONE_AT_A_TIME:
        done = subprocess.run(
            command, input=head + layout, capture_output=True, check=False, timeout=LONGEST_S
        )
    if done.returncode:
        raise RuntimeError(f"the report cannot be set: {done.stderr.decode(errors='replace'):.400}")
    return done.stdout


def main() -> None:
    """Set what stands on the standard input."""
    import typst

    given = json.loads(sys.stdin.buffer.readline())
    layout = sys.stdin.buffer.read()
    try:
        pdf = typst.compile(
            layout, sys_inputs=given["inputs"], ignore_system_fonts=True, timestamp=given["at"]
        )
    except typst.TypstError as error:
        sys.exit(str(error))
    assert isinstance(pdf, bytes)
    sys.stdout.buffer.write(pdf)


if __name__ == "__main__":
    main()
