"""Whether the pages are shown everything that an audit can come to."""

from daq.audit.stages import STAGES
from daq.screens.wall import HEADLINES
from tests.web.scenes import SITUATIONS, view


def test_every_step_has_its_scene():
    seen = {view(name)["step"] for name in SITUATIONS}
    assert seen >= {*STAGES, "idle", "signed", "unsafe"}


def test_whatever_is_said_in_large_letters_has_its_scene():
    messages = [view(name)["message"] for name in SITUATIONS]
    assert {each["code"] for each in messages if each} >= set(HEADLINES)


def test_each_verdict_has_its_scene_and_each_word_of_an_axis():
    views = [view(name) for name in SITUATIONS]
    words = {"in", "out", "close"}
    looks = {"same", "look"}
    assert {each["verdict"]["word"] for each in views if each["verdict"]} == words | looks
    assert {axis["word"] for each in views for axis in each["axes"]} == {*words, ""}


def test_a_scene_is_the_same_every_time():
    once = view("signed")
    again = SITUATIONS["signed"]()
    assert again.console["title"] == once["title"] and again.console["audit"] == once["audit"]


def test_each_choice_stands_over_its_buttons_where_there_are_several():
    for name in SITUATIONS:
        shown = view(name)
        over = [each["under"] for each in shown["actions"] if each["kind"] == "open"]
        checks = [each["payload"].get("check") for each in shown["actions"]]
        assert bool(any(over)) == any(checks), name
        assert len([a for a, b in zip(["", *over], over, strict=False) if a != b]) in (0, 2), name
        others = [each for each in shown["actions"] if each["kind"] != "open" and each["under"]]
        later = ("add-to-signed", "amend-report")
        added = [each for each in shown["actions"] if each["kind"] in later]
        assert others == (added if any(over) else []), name


def test_no_verdict_is_said_twice():
    for name in SITUATIONS:
        shown = view(name)
        came = shown["verdict"]["say"] if shown["verdict"] else ""
        told = (shown["title"], shown["detail"], *shown["notes"])
        assert not came or not any(came in each for each in told), name
