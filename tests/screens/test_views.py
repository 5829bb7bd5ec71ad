"""What every page gets, wherever an audit stands: JSON, in the reader's words and no others."""

import json
import re
import sys
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from importlib.resources import files
from typing import get_args, get_type_hints

from fluent.syntax import FluentParser, FluentSerializer
from fluent.syntax import ast as ftl
from fluent.syntax.visitor import Transformer

from daq.audit.aim import aim
from daq.audit.facts import kind_of
from daq.audit.reasons import Reason
from daq.audit.rounds import Offer
from daq.audit.stages import STAGES
from daq.audit.views.alike import alike
from daq.says import Language
from daq.screens import Pages, console, wall
from daq.words import Person, Said, said
from tests.audit.scenes import scenes
from tests.words import told

COMPUTING = re.compile(
    r"/daq/((metrology|checks|squaring|audit/anytime)/"
    r"|audit/(next_move|reading|lesson|stop_at|stages/\w+/(decide|reduce))\.py)"
)
OFFERS = (Offer("runout", said("check-runout")), Offer("vise", said("check-vise")))
WHY = "Choose why the head is being checked."
LETTERS = re.compile(r"[^\W\d_xX]+")


def pages(state) -> Pages:
    return Pages(wall(state, "Mill 4711"), console(state, "Mill 4711"))


def test_the_scenes_are_every_step_and_more():
    steps = {state.job.step if state.job is not None else "" for state in scenes()}
    assert steps == {*STAGES, ""}
    jobs = [state.job for state in scenes() if state.job is not None]
    assert {job.reason for job in jobs} == set(get_args(Reason))
    assert any(state.unsafe for state in scenes()) and any(j.asked for j in jobs)
    assert {job.gauge.unit for job in jobs} == {"mm", "in"} and any(job.axes.whole for job in jobs)


def test_every_page_is_json_with_the_fields_of_its_view_and_the_console_has_all_of_the_wall():
    for state in scenes():
        shown = told(pages(state))
        assert shown["wall"] == {key: shown["console"][key] for key in shown["wall"]}
        assert json.loads(json.dumps(shown, allow_nan=False)) == shown
        assert set(shown["console"]) == {each.name for each in fields(pages(state).console)}


class Strange(Transformer):
    """A language in which every letter is an x."""

    def visit_TextElement(self, node):
        node.value = re.sub(r"[^\W\d_]", "x", node.value)
        return node


@cache
def strange() -> Language:
    text = files("daq.says").joinpath("en.ftl").read_text(encoding="utf-8")
    document = FluentParser().parse(text)
    assert isinstance(document, ftl.Resource)
    return Language("xx", FluentSerializer().serialize(Strange().visit(document)))


hints_of = cache(get_type_hints)


def texts(view) -> Iterator[object]:
    """Everything in a view that is there to be read."""
    if is_dataclass(view):
        hints = hints_of(type(view))
        for each in fields(view):
            value, hint = getattr(view, each.name), hints[each.name]
            if Said in get_args(hint):
                yield value
            elif any(Said in get_args(inner) for inner in get_args(hint)):
                yield from value
            else:
                yield from texts(value)
    elif isinstance(view, tuple):
        for each in view:
            yield from texts(each)


def names(text) -> Iterator[str]:
    """The plain texts that stand in one, and whom it names."""
    if isinstance(text, str):
        yield text
    elif isinstance(text, Person):
        yield text.id
    elif isinstance(text, Said):
        for value in text.of.values():
            yield from names(value)
    elif isinstance(text, tuple):
        for each in text:
            yield from names(each)


def recorded(value) -> Iterator[str]:
    """Every text that stands in a machine's state: the shop's names, and what events say."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        for each in value.values():
            yield from recorded(each)
    elif isinstance(value, tuple | frozenset):
        for each in value:
            yield from recorded(each)
    elif is_dataclass(value):
        for each in fields(value):
            if each.name not in ("trail", "noticed", "story", "taken", "seconds"):
                yield from recorded(getattr(value, each.name))


def to_pick(job) -> Iterator[str]:
    """The numbers among which a gauge's own is picked."""
    for gauge in job.setup.gauges if job is not None else ():
        yield from alike(gauge.serial_number, job.id)


def test_a_view_has_no_word_of_its_own():
    """In a language of x's nothing is left but names: of a file, or as an event says it."""
    found = set()
    for state in scenes():
        known = "\n".join({*recorded(state), *to_pick(state.job), "Mill 4711"}).casefold()
        for text in texts(pages(state)):
            rest = strange().told(text) or ""
            for name in sorted(set(names(text)), key=len, reverse=True):
                if name.casefold() in known:
                    rest = re.sub(re.escape(name), "", rest, flags=re.IGNORECASE)
            found |= {(rest, str(text)) for _ in LETTERS.findall(rest)}
    assert found == set()


def test_a_redraw_reaches_no_room_that_computes():
    reached, looked_at = set(), {}

    def watch(frame, event, _):
        code = frame.f_code
        if event != "call" or id(code) in looked_at:
            return
        looked_at[id(code)] = code
        # In a stage of one file a decision is told by the input it is given.
        decides = "given" in code.co_varnames[: code.co_argcount]
        if decides or COMPUTING.search(code.co_filename):
            reached.add((code.co_filename.rpartition("/daq/")[2], code.co_name))

    states = scenes()
    sys.setprofile(watch)
    try:
        for state in states:
            pages(state), aim(state)
    finally:
        sys.setprofile(None)
    assert reached == set()


OUT = {"table", "angled", "set-back", "crashed", "levelled", "power", "power-height"}
OUT |= {"closer", "shim-open", "shim", "sign", "aside"}
"""Where the arm is not in yet, or was said to be out."""
GOES_IN = {"power-arm", "prepare", "arm-back"}


def test_from_the_card_to_clearing_away_every_screen_says_that_the_arm_is_in():
    steps = set()
    for state in scenes():
        if state.job is None:
            assert wall(state, "Mill 4711").arm is None
            continue
        steps.add(state.job.step)
        arm = told(wall(state, "Mill 4711"))["arm"] or ""
        if state.job.step in OUT and not state.job.arm_in:
            assert arm == ""
        elif kind_of(state.job) == "check":
            assert arm == "Gauge set up on the machine"
        else:
            card = state.job.step in GOES_IN and not state.job.arm_in
            assert arm == ("Arm goes in the spindle" if card else "Arm in the spindle")
    assert steps >= {"prepare", "question", "check", "tighten", "clear", "put-aside", "unsafe"}


def at_rest():
    found = [state for state in scenes() if state.job is None and state.unsafe is None]
    assert {state.last and bool(state.last.signed) for state in found} >= {None, False, True}
    return found


def test_why_the_head_is_checked_is_asked_over_its_reasons_alone():
    for state in at_rest():
        shown = told(Pages(wall(state, "Mill", OFFERS), console(state, "Mill", OFFERS)))
        actions = shown["console"].pop("actions")
        actions = [each for each in actions if each["kind"] != "add-to-signed"]
        assert WHY not in json.dumps(shown)
        actions = [each for each in actions if each["kind"] == "open"]
        checks = [each["payload"].get("check") for each in actions]
        assert checks[-2:] == ["runout", "vise"] and set(checks[:-2]) == {None}
        over = [each["under"] for each in actions]
        assert over == [WHY] * len(checks[:-2]) + ["Or choose another check."] * 2


def test_with_no_other_check_its_reasons_are_all_there_is_to_choose():
    for state in at_rest():
        shown = told(pages(state))
        assert {each["under"] for each in shown["console"]["actions"]} == {""}
        asked = [shown["wall"]["detail"].endswith(WHY), shown["console"]["detail"].endswith(WHY)]
        assert asked == [shown["wall"]["step"] == "idle"] * 2
