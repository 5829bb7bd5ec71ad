"""`changed` gives what `dataclasses.replace` gives, whatever the dataclass."""

from dataclasses import fields, replace

import pytest

from daq.audit.changed import changed
from daq.audit.state import Job, Shop
from daq.words import Both


def test_an_audit_is_as_the_library_makes_it(bench):
    job = bench().start().job
    for each in fields(Job):
        assert changed(job, **{each.name: None}) == replace(job, **{each.name: None}), each.name
    assert job == replace(job)


def test_what_has_slots_is_left_to_the_library():
    assert changed(Both(1, 2), nod=3) == Both(1, 3)


def test_a_field_that_there_is_not_is_refused():
    with pytest.raises(TypeError, match="machine"):
        changed(Shop(), machine=1)
