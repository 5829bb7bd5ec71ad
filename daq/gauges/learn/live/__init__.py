"""Learning a gauge at its port: the conversation with the gauge and with the person.

Here ports are opened, times are taken and questions asked; what is heard goes to the pure
modules above. What a wire means may not be decided here.
"""
