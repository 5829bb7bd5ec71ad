"""What shop.toml says of it: `[on_signing]`."""

from dataclasses import dataclass, field
from pathlib import PurePosixPath
from typing import Final, Literal

from daq.service.delivery.webhook import problem
from daq.settings import quoted

Ending = Literal["pdf", "html", "json", "csv", "samples.csv", "xlsx"]
"""What a report may be made as; a test holds it against the report's own list."""
SECRET_LEAST: Final = 16
"""Fewer characters are guessed from one note."""


@dataclass(frozen=True)
class OnSigning:
    """Where reports go once an audit is signed; "" for nowhere.

    `folder`: into which a file of each of the `formats` is put. `url`: to which a note is posted;
    `secret`: what its HMAC is made with, "" for none.

    Raises:
        ValueError: names the key, what was found and what is allowed.
    """

    folder: str = ""
    formats: tuple[Ending, ...] = ("pdf", "json")
    url: str = ""
    secret: str = field(default="", repr=False)

    def __post_init__(self) -> None:
        """Refuse a folder that depends on where the service was started, and what is no address."""
        if self.folder and not PurePosixPath(self.folder).is_absolute():
            raise ValueError(
                f"folder: found {quoted(self.folder)}; allowed: a whole path, from / on"
            )
        wrong = problem(self.url) if self.url else ""
        if wrong:
            raise ValueError(f"url: found {quoted(self.url)}; {wrong}")
        if self.secret and not self.url:
            raise ValueError("secret: found without url; allowed: both, or url alone")
        if 0 < len(self.secret) < SECRET_LEAST:
            raise ValueError(
                f"secret: found a short one; allowed: {SECRET_LEAST} characters or more"
            )
