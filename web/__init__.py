"""The screens: pages, the JSON API and the event stream, served by the Pi itself.

Here lives everything that speaks HTTP. It shows what the hub holds and hands
people's wishes to the inbox; it computes nothing about the machine, knows no
gauge and no ledger, and opens no port but its own. What else it needs of
the house it asks for as the service's own classes, and of the practice hands, which a shop has
not, as the Protocol of `web.ports`.
"""
