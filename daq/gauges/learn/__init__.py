"""From the bytes of an unknown gauge, and what its face showed, to the options of its frames.

`cutting` cuts what was heard into frames. `written`, `nibbles` and `counted` find where in them
the faces stand: as digits, half-bytes, counts and floats; `around` (with `cells`, `ours`, `signs`,
`sealed`) and `binary` make a frame's table of that, and `encodings` takes those with which the
ordinary decoders read just the faces, the simplest first. `speeds` and `framing` tell the line from
its bytes, `writing` the text of the gauge's file. All of it is pure: no port, clock or thread may
come in here but in the package `live`, and nowhere anything that is true of one gauge only.
"""
