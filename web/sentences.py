"""What a page's scripts say by themselves, ready in words: it comes with the page.

No script holds a sentence. Where one puts in a number or a name, its place stands in braces.
"""

from collections.abc import Callable
from typing import Any

from daq.says import Language
from daq.words import Said, said

N = "{n}"
AGES: tuple[tuple[int | None, int, Said], ...] = (
    (1, 1, said("age-now")),
    (120, 1, said("age-seconds", n=N)),
    (7200, 60, said("age-minutes", n=N)),
    (None, 3600, said("age-hours", n=N)),
)
"""Below how many seconds an age is told so, how many seconds each of its numbers is, and how."""


def sentences(says: Language) -> dict[str, Any]:
    """All of them, as a page carries them."""
    called = {"in": said("called-in"), "out": said("called-out"), "close": said("called-close")}
    all_of = {
        "called": called,
        "verdict": {
            **called,
            "close": said("called-too-close"),
            "same": said("called-same"),
            "look": said("called-look"),
        },
        **_live(),
        **_step(),
        **_press(),
        "numbers": _numbers(),
        "play_run": said("play-run"),
        "play_halt": said("play-halt"),
    }
    told: dict[str, Any] = says.told(all_of)
    return told


def _live() -> dict[str, object]:
    """About the live number, and the line it comes by."""
    return {
        "connecting": said("connecting"),
        "live": said("live"),
        "not_live": said("not-live"),
        "no_live": said("no-live"),
        "no_connection": said("no-connection"),
        "crowded": said("too-many-screens"),
        "press_key": said("press-the-key"),
        "sent_by_key": _aged(lambda age: said("sent-by-key", age=age)),
        "last_sent": _aged(lambda age: said("last-sent", age=age)),
        "settling": said("settling"),
        "hold_still": said("hold-still"),
        "sound_on": said("sound-is-on"),
        "sound_soft": said("sound-is-soft"),
    }


def _aged(sentence: Callable[[Said], Said]) -> list[dict[str, object]]:
    return [
        {"below_s": below_s, "per_s": per_s, "say": sentence(age)} for below_s, per_s, age in AGES
    ]


def _step() -> dict[str, object]:
    """About the step, its circle and both axes."""
    return {
        "stage": said("stage-of", stage="{stage}", n=N, of="{of}"),
        "audit": said("audit-short", short="{short}"),
        "not_recorded": said("not-recorded"),
        "next": said("spot-next"),
        "parked": said("spot-parked"),
        "no_reading": said("spot-empty"),
        "column": said("where-column"),
        "you": said("where-you"),
        "not_measured": said("not-measured"),
        "allowed": said("allowed", limit="{limit}"),
        "allowed_over": said("allowed-over", limit="{limit}", over="{over}"),
    }


def _press() -> dict[str, object]:
    """About a press: what is asked before it, and what became of it."""
    return {
        "yes": said("yes-do-it"),
        "fill_in": said("fill-in", field="{field}"),
        "may_stay_empty": said("may-stay-empty"),
        "or_type": said("or-type"),
        "day_like": said("day-like"),
        "digits": said("digits"),
        "digit_back": said("digit-back"),
        "pin_of": said("pin-of"),
        "pin_of_reviewer": said("pin-of-reviewer"),
        "pin_of_leaver": said("pin-of-leaver"),
        "pin_of_taker": said("pin-of-taker"),
        "working": said("working"),
        "sending_again": said("sending-again"),
        "unreached": said("unreached"),
        "came_between": said("came-between", what="{what}"),
        "step_changed": said("step-changed"),
        "refused": said("refused"),
        "cut": said("not-done-cut"),
        "answer": said("not-done-answer"),
        "fields": said("not-done-fields"),
        "back": said("not-done-back"),
        "keep_holding": said("keep-holding"),
        "let_go": said("let-go"),
        "nothing_to_count": said("nothing-to-count"),
        "stop_count": said("stop-the-count"),
        "press_now": said("press-it-now"),
        "enter": said("key-enter"),
    }


def _numbers() -> dict[str, object]:
    """About what a verdict rests on."""
    return {
        "rule": said("head-rule"),
        "condition": said("head-condition"),
        "decides": said("head-decides"),
        "work": said("head-work"),
        "head": said("head-head"),
        "facts": {
            "error": said("fact-error"),
            "toward": said("fact-toward"),
            "word": said("fact-word"),
            "u": said("fact-u"),
            "expanded": said("fact-expanded"),
            "k": said("fact-k"),
            "dof": said("fact-dof"),
            "guard": said("fact-guard"),
            "guard_say": said("fact-guard-say"),
            "probability": said("fact-probability"),
            "gauge": said("fact-gauge"),
        },
        "not_good_enough": said("not-good-enough"),
        "budget": said("budget-of", axis="{axis}"),
        "columns": [said("budget-what"), said("fact-u"), said("fact-dof")],
        "many": said("dof-many"),
    }
