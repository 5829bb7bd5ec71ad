"""The forms in which gauges put a number on a wire, a module a form.

May live here: frozen descriptions of frames and how to write them. May not live
here: anything that reads a frame. The modules are written from the frames'
descriptions alone and share nothing with a decoder, whose mistakes they would share.
"""

from daq.virtual.wires.scale import CountStep, WireFormat
from daq.virtual.wires.text import TextSpec
from daq.words import Unit

__all__ = ["CountStep", "TextSpec", "Unit", "WireFormat"]
