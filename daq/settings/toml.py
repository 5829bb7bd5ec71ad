"""Reading a TOML file, with errors a person can act on, and a value as it is written in one."""

import datetime
import json
import tomllib
from collections.abc import Mapping, Sequence
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


def toml_value(value: object) -> str:
    """A value as it is written in a TOML file: text, number, day, and rows and tables of them."""
    if isinstance(value, Mapping):
        pairs = (f"{key} = {toml_value(each)}" for key, each in value.items())
        return "{ " + ", ".join(pairs) + " }"
    if isinstance(value, Sequence) and not isinstance(value, str):
        return "[" + ", ".join(map(toml_value, value)) + "]"
    if isinstance(value, float):
        text = f"{value:.9f}".rstrip("0")
        return text + "0" * text.endswith(".")
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, str) and "\\" in value and "'" not in value and value.isprintable():
        return f"'{value}'"
    # JSON's text is TOML's but for one character, which JSON lets stand.
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
