"""What leaves the Pi by itself once an audit is signed: reports to a folder, a note to an address.

In here: `owed` (which rows are still to be delivered, kept in a file), `courier` (a thread a way
out, that tries again), `folder` and `webhook` (the ways out), `note` (what is posted),
`from_ledger` (what a row delivers), `deliveries` (all ways out of one shop). Nothing here
decides, and no press waits for any of it.
"""
