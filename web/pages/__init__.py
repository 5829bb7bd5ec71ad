"""The pages, one blueprint a family, found by scanning; templates stand beside.

Every module exports `FAMILY`. A page lays out what the snapshot says and
forwards presses; its words, numbers and signs all come from the snapshot.
"""
