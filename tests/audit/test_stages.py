"""The table of stages: what one of them leaves to another is decided there."""

from daq.audit.stage import Handler
from daq.audit.stages import STAGES


def test_a_command_left_to_another_stage_is_one_that_stage_decides():
    left = [
        (kind, by)
        for stage in STAGES.values()
        for kind, by in stage.commands.items()
        if isinstance(by, str)
    ]
    assert ("tightened", "tighten") in left
    for kind, by in left:
        assert isinstance(STAGES[by].commands[kind], Handler), f"{kind} is left to {by}"
