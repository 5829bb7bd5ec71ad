"""The English of what is said, for tests that read a screen as a person would."""

from daq.says import language


def en(said):
    """The sentence of a `Said`, or of a refusal; "" for nothing."""
    return language("en").words(getattr(said, "said", said))


def told(view):
    """A view as its page gets it."""
    return language("en").told(view)
