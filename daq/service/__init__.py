"""The running service: one thread decides and writes, the hub shows, readers feed both.

Here live the clock, the loading of a shop's files and what is told of them, the hub of
latest values, and the way of a command: inbox, decider, writer, and who follows the ledger.
What is decided belongs to `audit`, how a gauge is read to `gauges`; no page and no practice
mill is known here.
"""
