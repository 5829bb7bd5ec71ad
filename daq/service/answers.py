"""Answers to a command that brought nothing."""

from daq.ledger.errors import LedgerError, NotKnown
from daq.words import Ack, Command, Said, said


def not_recorded(command: Command, why: Said) -> Ack:
    """It was decided, and is on no disk."""
    return Ack(command.id, False, (), "not-recorded", why)


def refused(command: Command, why: Said) -> Ack:
    """It makes no sense now."""
    return Ack(command.id, False, (), "refused", why)


def lost(command: Command, error: LedgerError, fault: Said | None) -> Ack:
    """It could not be recorded; `fault`: what is wrong with the record, if that is known."""
    why = fault or error.said
    if isinstance(error, NotKnown):
        return Ack(command.id, False, (), "not-known", said("was-not-known", why=why))
    return not_recorded(command, said("was-not-recorded", why=why))
