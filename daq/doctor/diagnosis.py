"""One line of what was found: fine, or to be looked at, and then what to do."""

from dataclasses import dataclass

from daq.words import Said


@dataclass(frozen=True, slots=True)
class Diagnosis:
    """What was found of one thing.

    `about` is the code of what it is about (a look's name), `fine` whether all is well with it;
    `found` says what is the case, `todo` what to do where it is not.
    """

    about: str
    fine: bool
    found: Said
    todo: Said | None = None


def fine(about: str, found: Said) -> Diagnosis:
    """All is well."""
    return Diagnosis(about, True, found)


def look_here(about: str, found: Said, todo: Said) -> Diagnosis:
    """Somebody is to look at it."""
    return Diagnosis(about, False, found, todo)
