"""An event about the record itself."""

from dataclasses import dataclass


@dataclass(frozen=True)
class SamplesLetGo:
    """Raw samples were let go on purpose; belongs to no machine or audit, and changes neither.

    So many chunks (`count`) whose digests are listed in the file under this row, `digest` the
    SHA-256 of these one after the other in ascending order. None is named by a row after `up_to`.
    `older_than_days`: the shop's policy, or what was asked for at the command line.
    """

    count: int
    digest: str
    up_to: int
    older_than_days: int
