"""What the shop's own systems hear by MQTT: live values, and takes, verdicts, faults on record.

In here: `config` (`[mqtt]` of shop.toml), `shapes` (every message), `published` (their JSON
schema), `of_row` (what a row of the ledger says), `live` (what is sent while it is fresh), `line`
(the connection to the broker), `messages` (all of it, begun and ended). Nothing here decides, no
press and no reader waits for it, no message names a person, and practice goes nowhere.
"""
