"""The looks: one file each, found by scanning this folder.

A look's module exports one constant, LOOK: a function of the `Patient` that gives its diagnoses,
none where there is nothing to be said. It opens nothing for writing, waits for nobody without an
end, raises what it likes (the doctor says so), and imports no other look.
"""

import importlib
import pkgutil
from collections.abc import Callable, Iterable, Mapping
from functools import cache

from daq.doctor.diagnosis import Diagnosis
from daq.doctor.patient import Patient

LookAt = Callable[[Patient], Iterable[Diagnosis]]


@cache
def looks() -> Mapping[str, LookAt]:
    """Return every look by its name, which is its module's."""
    names = sorted(each.name for each in pkgutil.iter_modules(__path__))
    return {name: importlib.import_module(f"{__name__}.{name}").LOOK for name in names}
