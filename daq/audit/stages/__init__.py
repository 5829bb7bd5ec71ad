"""The stages of an audit, one file or folder each, found by scanning this one.

Each exports `STAGES`: usually one; two where a sweep is the same work with another purpose. In it
stand its commands, what it decides, how its events fold and what it shows. No stage imports
another: it names it by its key. A further stage is its file and its sentences, and nothing else
is edited.
"""

import importlib
import pkgutil
from collections.abc import Mapping

from daq.audit.stage import Stage, Took

_NAMES = sorted(f"{__name__}.{each.name}" for each in pkgutil.iter_modules(__path__))
_ALL = [stage for name in _NAMES for stage in importlib.import_module(name).STAGES]

STAGES: Mapping[str, Stage] = {stage.key: stage for stage in _ALL}
"""Every stage by its key, which is the step's name in events and on screens."""

TOOK: Mapping[type, Took] = {cls: took for each in _ALL for cls, took in each.took.items()}
"""Every event type that a stage owns."""
