"""The English of what is said, for tests that read a screen as a person would."""

import re
from contextlib import contextmanager

import pytest

from daq.says import language
from daq.settings import build
from daq.words import Said


def en(said):
    """The sentence of a `Said`, of what has one, or of one as a row holds it; "" for nothing."""
    said = getattr(said, "said", said)
    if isinstance(said, str):  # a name, or a number
        return said
    if isinstance(said, dict):
        said = build(Said, said, "row", quantities="plain")
    return language("en").words(said)


def faults(error):
    """Every problem of a table in English."""
    return tuple(map(en, error.problems))


def told(view, names=None):
    """A view as its page gets it; `names`: what people are called, by id."""
    return language("en").told(view, names or {})


@contextmanager
def troubled(kind, match):
    """As `pytest.raises`: what the error says in English matches."""
    with pytest.raises(kind) as caught:
        yield caught
    assert re.search(match, en(caught.value))
