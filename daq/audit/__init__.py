"""The audit as a fold over events: decide(state, input) and apply(state, event).

Here live the audit's types, its events, its stages with what each decides, changes and shows,
what may come at any of them, and the fold. All of it is pure: no I/O, no clock, no threads, no
configuration files. A decision computes and puts everything it computed into its events; the
fold only copies. What belongs to one kind of check lives in `checks`, what belongs to the
head's geometry in `squaring`.
"""
