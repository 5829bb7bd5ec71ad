"""Reading a TOML file, with errors a person can act on."""

import tomllib
from pathlib import Path
from typing import Any

from daq.settings.problems import SettingsError
from daq.settings.say import cut
from daq.words import said


def read_toml(path: Path) -> dict[str, Any]:
    """Return the table in a TOML file.

    Raises:
        SettingsError: the file is missing, unreadable, not UTF-8 or not TOML.
    """
    try:
        return tomllib.loads(path.read_bytes().decode("utf-8"))
    except OSError as error:
        what = said("toml-unread", why=error.strerror or "")
    except UnicodeDecodeError as error:
        line = bytes(error.object)[: error.start].count(b"\n") + 1
        what = said("toml-no-utf-8", line=line)
    except tomllib.TOMLDecodeError as error:
        what = said("toml-none", why=cut(str(error)))
    except RecursionError:
        what = said("toml-too-deep")
    except ValueError:  # of a whole number that Python refuses to turn into one
        what = said("toml-too-many-digits")
    raise SettingsError([said("fault", where=str(path), what=what)])
