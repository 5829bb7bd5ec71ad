"""The shop's own key: a file beside the ledger that nobody else may read, and no copy takes along.

Made once, by a person. Whoever has the file can sign as the shop: it says that a row was so on
this Pi, not that what it says is true.
"""

import os
import stat
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Final

from daq.ledger.attested import fingerprint
from daq.service.rights.store import write
from daq.words import Said, SaidTrouble, said

if TYPE_CHECKING:
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

NAME: Final = "shop-key"


class ShopKey:
    """Signs with the key it was given."""

    def __init__(self, private: "Ed25519PrivateKey") -> None:
        """The library it comes from was loaded by whoever made or read it."""
        self._private = private
        self.public = private.public_key().public_bytes_raw().hex()
        """The public key, 64 hex digits."""

    def sign(self, text: bytes) -> str:
        """Give the signature under a text, 128 hex digits."""
        return self._private.sign(text).hex()


def made_key(data: Path) -> ShopKey:
    """Make the key of a data folder.

    Raises:
        SaidTrouble: there is one already.
        OSError: it cannot be written.
    """
    from cryptography.hazmat.primitives import serialization as form
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

    path = data / NAME
    if os.path.lexists(path):
        raise SaidTrouble(said("key-is-there", file=str(path)))
    private = Ed25519PrivateKey.generate()
    none = form.NoEncryption()
    pem = private.private_bytes(form.Encoding.PEM, form.PrivateFormat.PKCS8, none)
    write(path, pem.decode("ascii"))
    return ShopKey(private)


def key(data: Path) -> ShopKey | None:
    """The key in a data folder, None where there is none.

    Raises:
        SaidTrouble: it cannot be read, or others on this computer can.
    """
    path = data / NAME
    if not path.exists():
        return None
    from cryptography.exceptions import UnsupportedAlgorithm
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
    from cryptography.hazmat.primitives.serialization import load_pem_private_key

    try:
        open_to_others = path.stat().st_mode & (stat.S_IRWXG | stat.S_IRWXO)
        private = load_pem_private_key(path.read_bytes(), None)
    except (OSError, ValueError, TypeError, UnsupportedAlgorithm) as error:
        why = getattr(error, "strerror", None) or type(error).__name__
        raise SaidTrouble(said("key-unread", file=str(path), why=str(why))) from None
    if open_to_others:
        raise SaidTrouble(said("key-open", file=str(path)))
    if not isinstance(private, Ed25519PrivateKey):
        raise SaidTrouble(said("key-unread", file=str(path), why=type(private).__name__))
    return ShopKey(private)


def run(data: Path, words: Callable[[Said], str]) -> int:
    """`headsweep ledger key`: make it, and print what of it is public. Errors as `made_key`."""
    made = made_key(data)
    paper = said("key-on-paper", key=made.public, short=fingerprint(made.public))
    sys.stdout.write(f"{words(said('key-made', file=str(data / NAME)))}\n{words(paper)}\n")
    return 0
