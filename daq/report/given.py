"""What a report needs besides the record it is of."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from daq.says import Language
from daq.words import Sample

SamplesOf = Callable[[str], tuple[Sample, ...]]
"""The samples that are stored under a digest; none where they are kept no more."""


@dataclass(frozen=True)
class Given:
    """In which language, what people are called (by id), the samples by digest, and by whom.

    `version`: of the release that makes it: it stands on the report. `number`: the report to be
    made where an audit has several; None for the latest.
    """

    says: Language
    names: Mapping[str, str]
    samples: SamplesOf
    version: str
    number: int | None = None
