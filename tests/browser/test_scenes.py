"""What an audit comes to, often or seldom: every scene can be read, and says what is so."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from daq.says import language
from tests.browser import reading
from tests.browser.screens import BOUNCE_MS, DRESSED, PHONE, WALL, Screens, later, part
from tests.web.conftest import FakeHub, FakeInbox
from tests.web.moving import bolted_by
from tests.web.scenes import SITUATIONS, Screen, made, view

GLOVE_PX = 48
CAPITALS = 0.71
"""How high capitals are in the narrowest of the faces, of its size (its own metrics)."""
FAR_PX = WALL["height"] / 25.0
"""What must carry across a shop: about 24 mm on a 27-inch screen, read from 5 m."""


@pytest.fixture(params=DRESSED)
def any_font(browser: Browser, request: pytest.FixtureRequest) -> Iterator[Screens]:
    screens = Screens(browser, request.param)
    yield screens
    screens.close()
    assert screens.wrong == []


def show(hub: FakeHub, page: Page, name: str, seq: int = 41) -> None:
    """Put a scene and a live number before the screens, and wait until this one shows both."""
    put(hub, page, Screen(made(name)), 1.0 + seq / 1000.0, seq=seq)


def put(hub: FakeHub, page: Page, shown: Screen, *faces_mm: float, seq: int = 41) -> None:
    """The same of a scene whose gauge has shown these numbers."""
    snapshot = shown.publish(seq)
    live = shown.reads(*faces_mm)
    hub.publish(live, snapshot)
    expect(page.locator("[data-part=title]")).to_have_text(snapshot.pages["console"]["title"])
    expect(page.locator("[data-part=digits]")).to_have_text(live.text)


def rested(page: Page) -> None:
    """The pedal came to rest, and the press before is answered."""
    later(page, BOUNCE_MS)
    expect(page.locator("[data-working=true]")).to_have_count(0)


SOME = pytest.mark.parametrize("nth", [5, pytest.param(1, marks=pytest.mark.long)])
"""All scenes are drawn on the page of components always; each in its place, in the long run."""


@SOME
def test_every_scene_can_be_read_on_a_phone(
    any_font: Screens, hub: FakeHub, address: str, nth: int
) -> None:
    page = any_font.phone(f"{address}/console")
    flaws = []
    for seq, name in enumerate([*SITUATIONS][::nth], 100):
        show(hub, page, name, seq)
        page.locator("[data-part=numbers]").evaluate("box => { box.open = true; }")
        found = reading.clipped(page)
        if any_font.style:  # for one of the two is enough
            found += reading.in_any_font(page)
        found += reading.low_controls(page, GLOVE_PX)
        if reading.measure(page, "beyondRight") > 0:
            found.append("wider than the screen")
        flaws += [f"{name}: {flaw}" for flaw in found]
    assert not flaws, "\n".join(flaws)


def test_what_went_wrong_carries_across_the_shop(
    screens: Screens, hub: FakeHub, address: str
) -> None:
    page = screens.open(f"{address}/wall", viewport=WALL)
    told = [name for name in SITUATIONS if view(name)["message"] and view(name)["headline"]]
    assert told
    for seq, name in enumerate(told, 100):
        show(hub, page, name, seq)
        head = page.locator("[data-kind=message] .head")
        expect(head).to_have_text(view(name)["headline"])
        size = head.evaluate("node => parseFloat(getComputedStyle(node).fontSize)")
        assert size >= FAR_PX, name
        expect(page.locator("[data-kind=message]")).to_contain_text(view(name)["message"]["say"])


def test_too_close_to_call_is_seen_to_lie_across_the_line(
    screens: Screens, hub: FakeHub, address: str
) -> None:
    page = screens.wall(f"{address}/wall")
    show(hub, page, "sign-close")
    assert part(page, "verdict") == "TOO CLOSE TO CALL"
    expect(page.locator(".figures [data-axis=nod] .word")).to_have_text("TOO CLOSE")
    drawn = page.locator(".verdict-drawn [data-axis=nod]")
    (top, wide, high), (from_y, to_y), marks = drawn.evaluate(
        "bar => { const box = name => bar.querySelector(name).getBoundingClientRect();"
        "const [zone, whisker, mark] = ['.zone', '.whisker', '.mark'].map(box);"
        "return [[zone.y, zone.width, zone.height], [whisker.top, whisker.bottom],"
        "[mark.width, mark.height]]; }"
    )
    assert high > wide, "nod stands upright"
    assert from_y < top + high < to_y, "what is kept free reaches over the lower limit"
    assert marks[0] > 1.5 * marks[1], "across the bar, where in is round and out on its corner"


def test_too_close_to_call_has_its_own_word_and_shape(
    screens: Screens, hub: FakeHub, address: str
) -> None:
    page = screens.phone(f"{address}/console")
    show(hub, page, "sign-close")
    assert part(page, "verdict").startswith("TOO CLOSE TO CALL")
    assert "The gauge is not good enough for this tolerance." in part(page, "verdict")
    nod = page.locator("[data-axis=nod]")
    expect(nod.locator(".word")).to_have_text("TOO CLOSE")
    expect(nod).to_contain_text("The gauge is not good enough for this tolerance.")
    signs = {
        axis: page.locator(f"[data-axis={axis}] .sign").evaluate(
            "node => getComputedStyle(node, '::before').content"
        )
        for axis in ("side", "nod")
    }
    assert signs == {"side": '"✓"', "nod": '"?"'}
    width, height = nod.locator(".marker").evaluate("n => [n.offsetWidth, n.offsetHeight]")
    assert height > 1.5 * width, "upright, where in is round and out a square on its corner"


def test_unequal_limits_say_which_side_and_leave_no_zone_where_nothing_may_be_low(
    screens: Screens, hub: FakeHub, address: str
) -> None:
    page = screens.phone(f"{address}/console")
    show(hub, page, "final-close")
    expect(page.locator("[data-axis=side] .limit")).to_have_text(
        "allowed right end low 0.010, left end low 0.017 over 200 mm"
    )
    expect(page.locator("[data-axis=nod] .limit")).to_contain_text("nodded up not at all")
    middle, left = page.locator("[data-axis=nod]").evaluate(
        "node => ['.middle', '.zone'].map(name => node.querySelector(name)"
        ".getBoundingClientRect().left)"
    )
    assert abs(left - middle) <= 2.0


@pytest.mark.parametrize("name", ["loosen-warned", "move-past"])
@pytest.mark.parametrize("kind", ["wall", "console"])
def test_warnings_are_seen_before_the_move(
    screens: Screens, hub: FakeHub, address: str, kind: str, name: str
) -> None:
    page = screens.open(f"{address}/{kind}", viewport=WALL if kind == "wall" else PHONE)
    show(hub, page, name)
    warned = page.locator("[data-kind=warning]")
    expect(warned.locator(".head")).to_have_text(view(name)["headline"])
    expect(warned).to_contain_text(*view(name)["warnings"])
    expect(warned).to_be_visible()


@pytest.mark.parametrize("kind", ["wall", "console"])
def test_the_way_is_said_as_the_service_says_it(
    screens: Screens, hub: FakeHub, address: str, kind: str
) -> None:
    """Going past is no mistake where it is asked for, and told until it was far enough."""
    page = screens.open(f"{address}/{kind}", viewport=WALL if kind == "wall" else PHONE)
    togo = page.locator("[data-part=togo]")
    for name, seen in {
        "move-past": [
            (-0.167, "up", "up 0.217, then back"),
            (0.051, "down", "Come back: down 0.051"),
            (0.000, "there", "There"),
        ],
        "move": [(-0.013, "up", "up 0.013 to go"), (0.030, "down", "Too far: down 0.030")],
    }.items():
        shown = Screen(made(name))
        for past_mm, way, words in seen:
            put(hub, page, shown, shown.aim.stop_face_mm + past_mm)
            expect(togo).to_have_text(words)
            expect(togo).to_have_attribute("data-way", way)


LYING = """strip => {
  const box = strip.getBoundingClientRect(), middle = box.x + box.width / 2;
  const [pointer, band] = ['.pointer', '.band'].map(
    name => strip.querySelector(name).getBoundingClientRect());
  return [(pointer.x + pointer.width / 2 - middle) * 2 / box.width, band.width / box.width];
}"""
UPRIGHT = """strip => {
  const box = strip.getBoundingClientRect(), middle = box.y + box.height / 2;
  const [pointer, band] = ['.pointer', '.band'].map(
    name => strip.querySelector(name).getBoundingClientRect());
  return [(middle - pointer.y - pointer.height / 2) * 2 / box.height, band.height / box.height];
}"""
"""Where the pointer stands, above the middle where the number is above the stop-at."""


@pytest.mark.parametrize("kind", ["wall", "console"])
def test_the_strip_is_to_scale_and_goes_with_the_lean_when_the_number_does(
    screens: Screens, hub: FakeHub, address: str, kind: str
) -> None:
    page = screens.open(f"{address}/{kind}", viewport=WALL if kind == "wall" else PHONE)
    lean, strip = page.locator("[data-part=lean]"), page.locator("[data-part=stop-strip]")
    shown = Screen(made("move"))
    for seq, off_mm in enumerate((-0.3, 0.02, 0.001), 41):
        put(hub, page, shown, shown.aim.stop_face_mm + off_mm, seq=seq)
        against = hub.number.against
        assert against is not None
        assert against.strip is not None
        expect(lean).to_have_text(language().words(against.lean))
        pointer, band = strip.evaluate(UPRIGHT if kind == "wall" else LYING)
        assert pointer == pytest.approx(against.strip.at, abs=0.02)
        assert band == pytest.approx(against.strip.half, abs=0.02)
        if kind == "wall":
            size = lean.evaluate("node => parseFloat(getComputedStyle(node).fontSize)")
            assert CAPITALS * size >= 0.058 * WALL["height"]
    hub.publish(shown.reads(shown.aim.stop_face_mm, unit="in"))
    expect(strip).to_be_hidden()
    expect(lean).to_have_text("")


@pytest.mark.parametrize("kind", ["wall", "console"])
def test_a_bolt_is_watched_against_what_it_may_do(
    screens: Screens, hub: FakeHub, address: str, kind: str
) -> None:
    """0.006 is over a limit of 0.0055, as the record says, although half a count off it."""
    page = screens.open(f"{address}/{kind}", viewport=WALL if kind == "wall" else PHONE)
    for stands, moved_mm, state, now, every in (
        (made("bolt-first"), 0.005, "within", "Moved +0.005, allowed 0.005", "Step 1 of 12"),
        (bolted_by(limit=0.0055), 0.005, "within", "Moved +0.005, allowed 0.0055", "Step 1 of 12"),
        (bolted_by(limit=0.0055), 0.006, "over", "Moved +0.006, allowed 0.0055", "Step 1 of 12"),
        (
            made("bolt-over"),
            0.010,
            "within",
            "Moved -0.002, allowed 0.005",
            "Step 7 of 12, +0.010 in all",
        ),
        (made("bolts-together"), 0.009, "within", "Moved +0.009 since the bolts were loose", ""),
    ):
        shown = Screen(stands)
        put(hub, page, shown, shown.aim.stop_face_mm + moved_mm)
        expect(page.locator("[data-part=shift]")).to_have_attribute("data-state", state)
        expect(page.locator("[data-part=shift-now]")).to_have_text(now)
        expect(page.locator("[data-part=shift-all]")).to_have_text(every)
        expect(page.locator("[data-part=stop]")).to_be_hidden()
        hub.publish(shown.reads(shown.aim.stop_face_mm, unit="in"))
        expect(page.locator("[data-part=shift-now]")).to_have_text("movement unknown")


def test_the_first_sweep_counts_unless_another_is_chosen(
    screens: Screens, hub: FakeHub, inbox: FakeInbox, address: str
) -> None:
    page = screens.open(f"{address}/console", viewport=PHONE)
    fields = {field["name"]: field for field in view("sign-close")["actions"][0]["fields"]}
    first, second = (choice["key"] for choice in fields["as_left"]["choices"])
    for chosen, why in ((first, ""), (second, "The ring was wiped.")):
        show(hub, page, "sign-close", seq=70 + int(chosen))
        rested(page)
        page.keyboard.press("Enter")
        box = page.locator("[data-part=ask]")
        expect(box.locator("[name=done_by]")).to_be_focused()
        expect(box.locator(f"[name=as_left][value='{first}']")).to_be_checked()
        box.locator("[name=done_by]").fill("R. Operator")
        box.locator(f"[name=as_left][value='{chosen}']").check()
        box.locator("[name=as_left_why]").fill(why)
        with page.expect_response(lambda answer: answer.url.endswith("/commands")):
            page.keyboard.press("Enter")
        sent = dict(inbox.got[-1].payload)
        assert (sent["as_left"], sent.get("as_left_why", "")) == (chosen, why)


def test_enter_is_the_primary_action_and_the_ram_is_asked_for_only_by_its_own(
    screens: Screens, hub: FakeHub, inbox: FakeInbox, address: str
) -> None:
    page = screens.open(f"{address}/console", viewport=PHONE)
    show(hub, page, "prepare")
    page.keyboard.press("1")
    box = page.locator("[data-part=ask]")
    angle = box.get_by_role("textbox", name="Ram swung by, such as 15 deg (may stay empty)")
    expect(box.get_by_role("radio").first).to_be_focused()
    box.get_by_role("radio", name="P-0417").check()
    angle.fill("15 deg")
    with page.expect_response(lambda answer: answer.url.endswith("/commands")):
        page.keyboard.press("Enter")
    assert inbox.got[-1].payload["ram_angle"] == "15 deg"
    for seq, name in enumerate(SITUATIONS, 200):
        primary = [each for each in view(name)["actions"] if each["primary"]]
        if not primary or primary[0]["fields"]:
            continue
        show(hub, page, name, seq=seq)
        rested(page)
        with page.expect_response(lambda answer: answer.url.endswith("/commands")):
            page.keyboard.press("Enter")
        assert inbox.got[-1].kind == primary[0]["kind"], name
