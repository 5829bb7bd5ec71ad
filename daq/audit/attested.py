"""The event in which the shop's own key signs what people signed."""

from dataclasses import dataclass


@dataclass(frozen=True)
class AuditAttested:
    """The shop's key (Ed25519) signed a row that holds a signature; belongs to no machine.

    `row`: that row, `hash` its hash in the chain. `key`: the public key, `signature` what it
    signed: the text "headsweep-signed:LEDGER:ROW:HASH". Hex, all three.
    """

    row: int
    hash: str
    key: str
    signature: str
