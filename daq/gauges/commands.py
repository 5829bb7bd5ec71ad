"""What a person can ask of gauges at the command line: listen to one, list ports.

Each gives an exit code: 0 all is well, 1 the gauge was not understood or not heard, 2 it
cannot be done at all.
"""

import argparse
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Final, TextIO

from daq import settings
from daq.gauges import listen, ports_list
from daq.gauges.config import GaugeConfig, read
from daq.gauges.errors import LinkError
from daq.gauges.identity import SERIAL_TREE
from daq.words import Said

OK: Final = 0
NOT_UNDERSTOOD: Final = 1
NOT_DONE: Final = 2


def hear(
    args: argparse.Namespace,
    words: Callable[[Said], str],
    out: TextIO | None = None,
    err: TextIO | None = None,
) -> int:
    """Show a gauge's frames until Ctrl-C; `words` makes words of what is said."""
    out, err = out or sys.stdout, err or sys.stderr
    try:
        config = read(_file(args.config, args.gauge))
        found = listen.listen(
            config, listen.url_of(config, args.port, args.data), out, words, max(0, args.count)
        )
    except KeyboardInterrupt:
        return OK
    except LinkError as error:
        err.write(f"{words(error.say)}\n")
        return NOT_DONE
    except settings.SettingsError as error:
        err.write(f"{words(error.said)}\n")
        return NOT_DONE
    return OK if found else NOT_UNDERSTOOD


def ports(
    args: argparse.Namespace,
    words: Callable[[Said], str],
    out: TextIO | None = None,
    err: TextIO | None = None,
    root: Path = SERIAL_TREE,
) -> int:
    """List the ports; a gauge's file that cannot be read is said and left out."""
    out, err = out or sys.stdout, err or sys.stderr
    gauges: dict[str, GaugeConfig] = {}
    code = OK
    for path in sorted(_gauges(args.config).glob("*.toml")) if args.config else ():
        try:
            gauges[path.stem] = read(path)
        except settings.SettingsError as error:
            err.write(f"{words(error.said)}\n")
            code = NOT_UNDERSTOOD
    found = {each.device: each for each in ports_list.ports(gauges, root)}
    found |= {each.device: each for each in ports_list.keyboards(gauges, root)}
    for line in ports_list.lines(list(found.values())):
        out.write(f"{line}\n")
    return code


def _gauges(folder: Path) -> Path:
    return folder / "gauges" if (folder / "gauges").is_dir() else folder


def _file(config: Path, key: str | None) -> Path:
    """Return a gauge's file.  Raises SettingsError when it is not said which."""
    if not config.is_dir():
        return config
    if key is None:
        raise settings.SettingsError(
            [f"{config}: found a folder; allowed: one with --gauge KEY, or a gauge's file"]
        )
    return _gauges(config) / f"{key}.toml"
