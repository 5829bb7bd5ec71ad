"""Each screen in the language that was chosen on it, and no other screen with it."""

import json
import re
import uuid

import pytest

from daq.says import language, own_names
from daq.words import Ack, said
from tests.web.scenes import MACHINE
from web.app import create_app
from web.tongue import COOKIE

WAITING = said("waiting-first")
"""It stands on wall and console, from a template."""
BUTTON = re.compile(r'lang="(\w+)" data-language="\1" aria-pressed="(\w+)" disabled>(.*?)<')


@pytest.fixture
def app(hub, inbox, practice):
    return create_app(hub, inbox, practice)


def speaking(app, tag):
    client = app.test_client()
    if tag:
        client.set_cookie(COOKIE, tag)
    return client


@pytest.mark.parametrize("kind", ["wall", "console"])
@pytest.mark.parametrize(
    ("tag", "spoken"), [("", "en"), ("es", "es"), ("xx", "en"), ("../en", "en")]
)
def test_a_page_is_in_the_language_chosen_or_else_the_shops(app, tag, spoken, kind):
    page = speaking(app, tag).get(f"/machines/{MACHINE}/{kind}").text
    assert re.search(r'<html lang="(\w+)">', page)[1] == spoken
    assert language(spoken).words(WAITING) in page
    carried = json.loads(re.search(r'id="words">(.*?)</script>', page, re.DOTALL)[1])
    assert carried["no_live"] == language(spoken).words(said("no-live"))


@pytest.mark.parametrize("path", ["/", f"/machines/{MACHINE}/console"])
def test_a_page_names_each_language_in_its_own_words(app, path):
    assert own_names() == {"en": "English", "es": "Español"}
    for tag in ("en", "es"):
        found = BUTTON.findall(speaking(app, tag).get(path).text)
        assert {each: name for each, _, name in found} == own_names()
        assert [each for each, pressed, _ in found if pressed == "true"] == [tag]


def test_an_answer_is_in_the_language_of_the_screen_that_asks(app):
    for tag in ("en", "es"):
        found = speaking(app, tag).get("/api/machines/lathe/live").json["reason"]
        given = {"key": "'lathe'", "there": MACHINE}
        assert found == language(tag).words(said("no-machine-so-called", **given))


def test_a_press_that_was_put_aside_is_answered_in_its_screens_language(app):
    """Then the request is over, and what it brought cannot be looked at any more."""
    body, headers = {"id": str(uuid.uuid4()), "kind": "take"}, {"Cookie": f"{COOKIE}=es"}
    path = f"/api/machines/{MACHINE}/commands"
    with app.test_request_context(path, method="POST", json=body, headers=headers):
        aside = app.full_dispatch_request()
    why = said("no-audit")
    _, told = aside._made(Ack(body["id"], False, (), "refused", why))
    assert json.loads(told)["reason"] == language("es").words(why)


def test_no_language_is_read_from_outside_the_room_of_sentences(app):
    with pytest.raises(ValueError, match=r"found '\.\./says/es'"):
        language("../says/es")
    assert '<html lang="en">' in speaking(app, "../says/es").get("/").text
