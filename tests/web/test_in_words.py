"""A machine's pages are made words once for each snapshot, whoever asks for them."""

from dataclasses import replace

import pytest

from daq.says import Language, language
from daq.words import Person, Snapshot, said
from web.app import create_app
from web.rooms import EXTENSION

MACHINE = "practice-mill"
ASKED = (
    "/",
    f"/machines/{MACHINE}/wall",
    f"/machines/{MACHINE}/console",
    f"/machines/{MACHINE}/bench",
    f"/api/machines/{MACHINE}/snapshot",
)


class Counting(Language):
    """Counts how often a sentence is made."""

    def __init__(self):
        super().__init__("xx", "", language())
        self.made = []

    def words(self, given, *names):
        self.made += [] if given is None else [given.code]
        return super().words(given, *names)


@pytest.fixture
def says():
    return Counting()


@pytest.fixture
def asked(hub, inbox, practice, says):
    """Ask for everything that shows the machine, by page, program and stream."""
    app = create_app(hub, inbox, practice, says=says)
    client, streams = app.test_client(), app.extensions[EXTENSION].streams

    def ask():
        for path in ASKED:
            assert client.get(path).status_code == 200
        return [streams.first(MACHINE).decode() for _ in range(3)]

    return ask


def pages(scene: Snapshot) -> Snapshot:
    """A scene with one sentence on its pages that nothing else says, and a person in it."""
    one = said("of-gauge", gauge=Person("id-1"), say=said("live"))
    return replace(
        scene,
        pages={
            "console": {**scene.pages["console"], "title": one},
            "wall": {**scene.pages["wall"]},
        },
    )


def test_a_snapshot_is_made_words_once_whoever_asks(hub, says, asked, scenes):
    hub.people = {"id-1": "Kit"}
    hub.publish(snapshot=pages(scenes["move"]))
    for _ in range(2):
        assert all("Kit: Live" in each for each in asked())
    assert says.made.count("of-gauge") == 1
    hub.publish(snapshot=pages(scenes["move"]))
    asked()
    assert says.made.count("of-gauge") == 2


def test_what_changes_besides_the_pages_is_told_at_once(hub, says, asked, scenes):
    hub.people = {"id-1": "Kit"}
    hub.publish(snapshot=pages(scenes["move"]))
    asked()
    alarm = {"ok": False, "say": said("no-answer")}
    hub.publish(snapshot=replace(hub.current, recording=alarm))
    assert all(language().words(said("no-answer")) in each for each in asked())
    assert says.made.count("of-gauge") == 1
    hub.people = {"id-1": "Robin"}
    assert all("Robin: Live" in each for each in asked())
