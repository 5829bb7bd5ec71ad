"""The verdict is signed."""

from daq.audit.decide import closing, sweeping
from daq.audit.stage import Handler, Stage

STAGES = (
    Stage("sign", commands={"sign": Handler(closing.sign), "again": Handler(sweeping.again)}),
)
