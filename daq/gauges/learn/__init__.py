"""From the bytes of an unknown gauge to the options of its frames: a module a shape.

Here live the guesses of each shape, how they are judged by decoding what was heard with
the ordinary decoders, the line's framing as its bytes show it, the scale from one known
push, and the text of the gauge's file. All of it is pure: bytes in, proposals out. No
port, clock or thread may come in here but in the package `live`, and nowhere anything
that is true of one gauge only.
"""
