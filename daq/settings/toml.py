"""Reading a TOML file, with errors a person can act on."""

import tomllib
from pathlib import Path
from typing import Any

from daq.settings.problems import SettingsError
from daq.settings.say import cut


def read_toml(path: Path) -> dict[str, Any]:
    """Return the table in a TOML file.

    Raises:
        SettingsError: the file is missing, unreadable, not UTF-8 or not TOML.
    """
    try:
        return tomllib.loads(path.read_bytes().decode("utf-8"))
    except OSError as error:
        words = f"cannot be read: {error.strerror}"
    except UnicodeDecodeError as error:
        line = bytes(error.object)[: error.start].count(b"\n") + 1
        words = f"line {line}: found a byte that is not UTF-8; allowed: a UTF-8 text file"
    except tomllib.TOMLDecodeError as error:
        words = f"is not TOML: {cut(str(error))}"
    except RecursionError:
        words = "found brackets nested too deep; allowed: a few, one in another"
    except ValueError:  # of a whole number that Python refuses to turn into one
        words = "found a number of some thousand digits; allowed: a few"
    raise SettingsError([f"{path}: {words}"])
