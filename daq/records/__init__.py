"""What is on record, for whoever reads it afterwards: an audit whole, and the list of all.

In here: `record` (an audit as frozen dataclasses, from its rows), `read` (how they come from a
ledger's file, each with its hash), `find` (which audit is meant). Codes and numbers: words are
made where it is shown. Nothing here decides, measures or writes a ledger.
"""
