"""From a gauge's file to its samples: the port, the decoder, the ring, the thread that reads.

Everything about one gauge on one wire lives here, with the dataclasses of its
own settings. Nothing here knows a machine, a sweep or the ledger, and no reader
ever waits for whoever uses its samples.
"""
