"""Paper and files: an audit's record as bytes in a format, in words.

In here: a file a format in `formats/` (found by scanning), what they share, and `made`, which gives
the bytes of what it is handed: it reads no ledger and no clock, so the same record gives the same
bytes. `files` finds the record in a ledger, `commands` writes files. An edge: it makes words, as
pages and the command line do.
"""
