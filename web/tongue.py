"""Which language a screen speaks: what was chosen on it, or else the shop's.

Its browser keeps the choice in a cookie that `language.js` writes: pages, API and stream come with
it. Nothing of it reaches the record, and a report is in the shop's language whoever asks for it.
"""

from typing import Final

from flask import request

from daq.says import Language, language, own_names

COOKIE: Final = "headsweep-language"


def chosen(of_shop: Language) -> Language:
    """The language of whoever asks; the shop's where none that there is was chosen."""
    tag = request.cookies.get(COOKIE, "")
    return language(tag) if tag in own_names() and tag != of_shop.name else of_shop
