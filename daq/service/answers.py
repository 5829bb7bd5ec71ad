"""Answers to a command that brought nothing."""

from daq.words import Ack, Command, Said


def not_recorded(command: Command, why: Said) -> Ack:
    """It was decided, and is on no disk."""
    return Ack(command.id, False, (), "not-recorded", why)


def refused(command: Command, why: Said) -> Ack:
    """It makes no sense now."""
    return Ack(command.id, False, (), "refused", why)
