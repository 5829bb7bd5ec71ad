"""Who may do what: look, work, sign, set up.

A screen is paired by a short code that the Pi's own wall shows; people prove who they are by a
PIN when they sign. No right ever follows from where a request came from. What is decided stands
in `codes`, `limits` and `wall`, which are handed their clock; `store` keeps it in one file of the
data folder, hashes only; `access` is what the pages ask. Nothing here speaks HTTP, and nothing
here is ever written to the ledger, to a log or to a backup.
"""
