"""The connections to a port of this computer, as its kernel tells of them."""

from pathlib import Path

ESTABLISHED = "01"


def unread(port: int) -> list[int]:
    """Of each connection, how many bytes nobody has read yet; proc_pid_net(5)."""
    lines = Path("/proc/net/tcp").read_text(encoding="ascii").splitlines()[1:]
    found = []
    for _, ours, _, state, queues, *_ in map(str.split, lines):
        if ours.endswith(f":{port:04X}") and state == ESTABLISHED:
            found.append(int(queues.partition(":")[2], 16))
    return found
