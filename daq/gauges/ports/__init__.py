"""Ports of our own, before those that pyserial brings: one module a URL scheme.

A module is named protocol_ and the scheme, and has a `Serial`: so pyserial finds
it by itself once this package is in its list. Nothing here knows gauges or frames. What is
needed beyond pyserial a port asks for when it is opened (`incoming.library`), not before.
"""
