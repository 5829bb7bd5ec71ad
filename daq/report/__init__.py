"""Paper and files: an audit's record as bytes in a format, in words.

In here: a file a format in `formats/` (found by scanning), what they share, and `made`, which gives
the bytes. Reads what it is handed; opens no ledger, reads no clock: the same record gives the same
bytes. An edge: it makes words, as pages and the command line do.
"""
