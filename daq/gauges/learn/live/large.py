"""Numbers of five lines' height, for a terminal that is read from the machine."""

from typing import Final

_ROWS: Final = 5
_LARGE: Final = {
    "0": "█▀█ █ █ █ █ █ █ █▄█", "1": " ▄█   █   █   █   █", "2": "▀▀█   █ █▀▀ █   █▄▄",
    "3": "▀▀█   █ ▀▀█   █ ▄▄█", "4": "█ █ █ █ ▀▀█   █   █", "5": "█▀▀ █   ▀▀█   █ ▄▄█",
    "6": "█▀▀ █   █▀█ █ █ █▄█", "7": "▀▀█   █   █   █   █", "8": "█▀█ █ █ █▀█ █ █ █▄█",
    "9": "█▀█ █ █ ▀▀█   █ ▄▄█", "-": "        ▀▀▀        ", "+": "     █  ▀█▀  █     ",
    ".": "                 ▄ ",
}  # fmt: skip


def large(text: str) -> str:
    """Return a number's digits, sign and decimal sign large; what else it has, behind them."""
    known = [one for one in text.replace(",", ".") if one in _LARGE]
    rest = "".join(one for one in text.replace(",", ".") if one not in _LARGE).strip()
    rows = ["  ".join(_LARGE[one][4 * row : 4 * row + 3] for one in known) for row in range(_ROWS)]
    return "\n".join([*rows[:-1], f"{rows[-1]}  {rest}".rstrip()])
