"""How the cards before an audit are answered where a test is about something else."""

READY = dict.fromkeys(("bare", "clean", "centred", "locked"), True)
"""The payload of `readied`: all four done."""
