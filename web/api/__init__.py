"""The JSON API and the event stream, one blueprint a family, found by scanning.

Every module exports `FAMILY`. A view's parameters and return type are its
documentation: the OpenAPI document is made from them. Nothing here renders a
page or knows what a step means.
"""
