"""A dataclass with some fields changed, quickly: every event changes an audit."""

from dataclasses import fields, replace
from functools import cache
from typing import TYPE_CHECKING, Any

__all__ = ["changed"]

if TYPE_CHECKING:  # its types are the library's own
    from dataclasses import replace as changed
else:

    def changed(of: object, /, **to: object) -> object:
        """Return a frozen dataclass with these fields changed, as `dataclasses.replace` does.

        That one asks for each field by its name and puts each in by a call; an audit has some
        forty, of which an event changes a few. What can be is copied at once.

        Raises:
            TypeError: there is no such field.
        """
        if not to or not to.keys() <= _copied(type(of)):
            return replace(of, **to)
        made = object.__new__(type(of))
        vars(made).update(vars(of))
        vars(made).update(to)
        return made


@cache
def _copied(cls: Any) -> frozenset[str]:  # noqa: ANN401 - any dataclass
    """The fields of one that can be copied; none where they stand in slots or are checked."""
    if hasattr(cls, "__slots__") or hasattr(cls, "__post_init__"):
        return frozenset()
    return frozenset(each.name for each in fields(cls))
