"""The bare loop beside the service: pty read, decode, socket send. Run as a program of its own.

Arguments: the terminal's name and how many screens will connect. It prints its address, waits
for a line from each screen, and then sends every second frame, as often as the service does.
"""

import os
import socket
import sys

END = b"\r\n"


def main() -> None:
    """Serve until terminated."""
    terminal, screens = sys.argv[1], int(sys.argv[2])
    wire = os.open(terminal, os.O_RDONLY | os.O_NOCTTY)
    listener = socket.create_server(("127.0.0.1", 0), backlog=screens)
    print(f"http://localhost:{listener.getsockname()[1]}/", flush=True)
    connections = []
    for _ in range(screens):
        connection, _ = listener.accept()
        connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        connections.append(connection)
    rest, number = b"", 0
    while True:
        *frames, rest = (rest + os.read(wire, 4096)).split(END)
        for frame in frames:
            value = float(frame[:8])
            number += 1
            if number % 2:
                event = b'data: {"value_mm":%.3f}\n\n' % value
                for connection in connections:
                    connection.send(event)


if __name__ == "__main__":
    main()
