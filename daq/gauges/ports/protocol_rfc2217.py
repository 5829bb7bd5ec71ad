"""rfc2217://NAME:PORT, as pyserial has it, but for how it ends.

Where the server hangs up while the port is opened, pyserial's thread ends with an error that the
log would show every two seconds, its socket stays open, and what is raised is now the one, now the
other: that it did is said here.
"""

import contextlib
import errno

from serial import rfc2217


class Rfc2217(rfc2217.Serial):
    """A port of a serial server that is told speed and parity."""

    _hung_up = False

    def open(self) -> None:
        """Open it; a server that hangs up meanwhile is an `OSError` of just that number."""
        self._hung_up = False
        try:
            super().open()
        except OSError as error:
            if self._hung_up:
                raise ConnectionResetError(errno.ECONNRESET, "hung up") from error
            raise

    def _telnet_read_loop(self) -> None:
        with contextlib.suppress(OSError):  # whoever reads or writes is told of it
            super()._telnet_read_loop()  # type: ignore[misc] # its stubs leave out what is its own
        self._hung_up = self._hung_up or self.is_open

    def close(self) -> None:
        """Give the port back, whether or not the server is there any more."""
        held = getattr(self, "_socket", None)
        super().close()
        if held is not None:
            held.close()


Serial = Rfc2217
"""As pyserial looks for it."""
