"""Every sentence that a screen, a report or an answer shows: one file a language.

Here live the sentences (`en.ftl`, `es.ftl`, in the open Fluent syntax), how numbers and days stand
in them, and the one way from codes and numbers to words. Nothing here decides, judges or computes;
what crosses in is `Said`. A further language is one more file, and nothing else.
"""

from daq.says.language import Language, language, own_names, words

__all__ = ["Language", "language", "own_names", "words"]
