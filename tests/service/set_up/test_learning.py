"""A gauge learned with somebody at a page, on real pseudo-terminals: as at the command line."""

import itertools
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from daq.gauges.config import SerialLine, read
from daq.gauges.learn.live.ear import opened
from daq.gauges.learn.live.kept import again
from daq.service.files import what_is_good
from daq.service.set_up.folder import ConfigFolder
from daq.service.set_up.gaps import PAPERS, incomplete
from daq.service.set_up.heard import Ears
from daq.service.set_up.learn_talk import AWAY_NS, UNANSWERED_NS
from daq.service.set_up.learning import LearnAsked, Learning
from daq.words import Proved, SaidTrouble
from tests.gauges.learn_bench import QUICK, Bench
from tests.gauges.learn_desk import Desk, learned
from tests.gauges.learn_trials import PLAIN
from tests.gauges.test_learn_conversation import TOLD
from tests.gauges.test_learn_session import MODELS
from tests.patience import until
from tests.service.set_up import test_learn_talk
from tests.service.set_up.test_heard import EXAMPLES
from tests.system.ttygauge import TtyGauge
from tests.words import en, troubled

KIT = Proved("5f0c3a52-8f7e-4d6c-9f53-2f1f6f0a7c11", "Kit Marsh")
PLACES = {"learn-face-free": -0.4, "learn-face-pushed": 0.603}
ANSWERS = {
    "learn-travel": "12.7 mm", "learn-speed": "", "learn-name": "Arm gauge", "learn-serial": "7",
    "learn-kind": "plunger", "learn-max-error": "0.004 mm", "learn-due": "2028-03-31",
}  # fmt: skip
LEFT_OUT = dict.fromkeys(ANSWERS, "")


@pytest.fixture
def gauge(tmp_path):
    with TtyGauge(tmp_path / "serial" / "by-id" / "adapter-1") as talking:
        yield talking


@pytest.fixture
def port(tmp_path):
    return str(tmp_path / "serial" / "by-id" / "adapter-1")


@pytest.fixture
def config(tmp_path):
    return tmp_path / "config"


@pytest.fixture
def ears(tmp_path):
    return Ears({}, EXAMPLES, tmp_path / "serial")


clock = test_learn_talk.clock


@pytest.fixture
def learning(config, ears, clock):
    made = Learning(ConfigFolder(config), ears, patience=QUICK, now_ns=clock)
    yield made
    made.stop()


def next_of(learning, number=0):
    """What is asked after the question of that number, or how it ended."""

    def come():
        talk = learning.view().talk
        asks = talk.question is not None and talk.question.number > number
        return talk if asks or talk.state == "over" else None

    return until(come, lambda: learning.view().talk)


def nothing_known(learning):
    """Leave out what is asked before anything is listened to; return the last question's number."""
    number = 0
    for _ in ("travel", "speed"):
        number = next_of(learning, number).question.number
        learning.answer(number, "")
    return number


def led(learning, gauge, answers):
    """Hold the contact where it is asked for, type what the face shows; return how it ended."""
    asked = []
    talk = next_of(learning)
    while (question := talk.question) is not None:
        asked.append((question.say.code, question.kind, en(talk.step)[:11]))
        if question.kind == "face":
            at = PLACES.get(question.say.code, 0.137)
            gauge.move_to(at)
            shown = f"{at:+08.3f} mm"
            until(lambda shown=shown: learning.view().talk.believed == shown)
            answers = {**answers, question.say.code: f"{at:.3f} mm"}
        learning.answer(question.number, answers.get(question.say.code, ""))
        talk = next_of(learning, question.number)
    return talk, asked


def test_it_writes_the_file_that_the_command_line_writes(learning, gauge, port, config):
    learning.begin(LearnAsked(port), KIT)
    assert learning.under_way
    over, asked = led(learning, gauge, ANSWERS)
    assert asked == [
        ("learn-travel", "length", "Step 1 of 5"),
        ("learn-speed", "speed", "Step 1 of 5"),
        ("learn-face-free", "face", "Step 3 of 5"),
        ("learn-face-pushed", "face", "Step 4 of 5"),
        ("learn-name", "text", "Step 5 of 5"),
        ("learn-serial", "text", "Step 5 of 5"),
        ("learn-kind", "choice", "Step 5 of 5"),
        ("learn-max-error", "length", "Step 5 of 5"),
        ("learn-due", "date", "Step 5 of 5"),
    ]
    assert (over.kept.key, over.kept.missing, over.believed) == ("arm-gauge", (), "")
    assert "gauges/arm-gauge.toml is written" in en(over.told[-1])
    path = config / "gauges" / "arm-gauge.toml"
    made = learned(Desk(PLAIN["plain"]), *TOLD, "--port", port)
    assert differing(path.read_text(encoding="utf-8"), made.text) == {"interval"}
    assert read(path).line.port == port
    assert again(path.with_suffix(".cap")).same
    assert not learning.under_way


def differing(one, other):
    """The keys of the lines that two files do not share."""
    both = set(one.splitlines()) ^ set(other.splitlines())
    return {line.partition(" =")[0] for line in both}


def test_what_nobody_told_is_missing_and_a_full_disk_loses_nothing(
    learning, gauge, port, config, monkeypatch
):
    wrong = itertools.chain([OSError(28, "No space left on device")], itertools.repeat(None))
    add = ConfigFolder.add

    def filling(*of):
        if error := next(wrong):
            raise error
        return add(*of)

    monkeypatch.setattr(ConfigFolder, "add", filling)
    learning.begin(LearnAsked(port), KIT)
    over, asked = led(learning, gauge, LEFT_OUT)
    assert asked[-1] == ("learn-keep-again", "press", "Step 5 of 5")
    assert (over.kept.key, over.kept.missing) == ("gauge", PAPERS)
    assert "It still lacks name, serial_number, travel, max_error, calibration_due." in en(
        over.told[-1]
    )
    assert incomplete(what_is_good(config).amiss) == {"gauge": PAPERS}
    text = (config / "gauges" / "gauge.toml").read_text(encoding="utf-8")
    assert "\n# max_error = " in text and "\nmax_error" not in text


def test_giving_up_writes_nothing_and_lets_the_port_go(learning, gauge, port, config, ears):
    learning.begin(LearnAsked(port), KIT)
    next_of(learning)
    with troubled(SaidTrouble, match="A gauge is being learned there already"):
        learning.begin(LearnAsked(port), KIT)
    with troubled(SaidTrouble, match="A gauge is being learned there already"):
        ears.listen(port, "example-text")
    speed = nothing_known(learning)
    until(lambda: learning.view().talk.may_skip)
    learning.leave()
    over = until(lambda: learning.view().talk.state == "over" and learning.view().talk)
    assert (over.kept, en(over.told[-1])) == (
        None,
        "Given up. Nothing is written, and the port is free.",
    )
    until(lambda: ears.listen(port, "example-text").text)
    assert not config.exists()
    with troubled(SaidTrouble, match="Something else is asked by now"):
        learning.answer(speed, "")


def test_a_speed_that_is_tried_is_left_out_at_a_press(config, ears, gauge, port):
    """Bytes that mean nothing are listened to for 6 s at each speed, 60 s at all of them."""
    gauge.garble(b"\x13\x92\x07\xe1\xb5")
    learning = Learning(ConfigFolder(config), ears, patience=replace(QUICK, listen_s=20.0))
    learning.begin(LearnAsked(port), KIT)
    nothing_known(learning)

    def second_tried():
        learning.skip()
        told = learning.view().talk.told
        return any(each.code == "learn-tried" and each.of["nth"] > 1 for each in told)

    until(second_tried, lambda: learning.view().talk)
    learning.stop()
    assert not learning.under_way
    with closing(opened(SerialLine(port), port)):
        pass


@pytest.mark.parametrize("looks", [False, True])
def test_when_nobody_looks_or_answers_it_is_given_up(learning, gauge, port, clock, looks):
    learning.begin(LearnAsked(port), KIT)
    next_of(learning)
    while looks and clock.later < UNANSWERED_NS - AWAY_NS // 2:
        clock.later += AWAY_NS // 2
        assert learning.view().talk.state == "asks"
    clock.later += (AWAY_NS // 2 if looks else AWAY_NS) + 10**9
    until(lambda: not learning.under_way)
    assert en(learning.view().talk.told[-1]).startswith("Nobody types what the face shows")
    with closing(opened(SerialLine(port), port)):
        pass


def test_a_cable_pulled_out_ends_it_in_words(learning, gauge, port):
    learning.begin(LearnAsked(port), KIT)
    face = next_of(learning, nothing_known(learning)).question
    assert face.say.code == "learn-face-free"
    gauge.unplug()
    over = next_of(learning, face.number)
    assert (over.state, over.kept) == ("over", None)
    assert "cable" in en(over.told[-1])


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ({"port": ""}, "A port is missing"),
        ({"port": "/etc/passwd"}, "There is no port /etc/passwd"),
        ({"sends": "asked"}, "What the gauge is asked with"),
        ({"request": "R"}, "What the gauge is asked with"),
        ({"sends": "asked", "request": "R\\q"}, "found '.*q' in request; allowed"),
        ({"sends": "asked", "request": "R" * 81}, "81 characters; allowed: at most 80"),
    ],
)
def test_what_cannot_be_learned_is_refused_before_a_port_is_opened(
    learning, gauge, port, asked, words
):
    with troubled(SaidTrouble, match=words):
        learning.begin(replace(LearnAsked(port), **asked), KIT)
    assert learning.view().talk is None


def test_a_port_that_a_gauge_of_the_shop_is_read_at_is_refused(config, port, gauge, tmp_path):
    example = EXAMPLES["example-inch"]
    used = {"bench": replace(example, line=replace(example.line, port=port))}
    held = Learning(ConfigFolder(config), Ears(used, EXAMPLES, tmp_path / "serial"))
    with troubled(SaidTrouble, match="is read as bench already"):
        held.begin(LearnAsked(port), KIT)


STEPS = {"learn-face-free": "free", "learn-face-pushed": "pushed", "learn-face-again": "again"}


@pytest.mark.parametrize(
    ("model", "how"),
    [
        pytest.param("inch-key", LearnAsked("", "key"), marks=pytest.mark.long),
        pytest.param("echo", LearnAsked("", "asked", "RD,1\\r"), marks=pytest.mark.long),
    ],
)
def test_a_gauge_that_waits_for_its_key_or_a_request_is_learned_too(
    learning, port, config, model, how
):
    of = MODELS[model]
    with Bench(of, Path(port)) as bench:
        learning.begin(replace(how, port=port), KIT)
        talk = next_of(learning)
        while (question := talk.question) is not None:
            kind, code = question.kind, question.say.code
            step = {"face": STEPS.get(code, "elsewhere"), "press": "key"}.get(kind, "told")
            typed = bench.asked(step, question.say, lambda: None)
            learning.answer(question.number, typed or ANSWERS.get(code, ""))
            talk = next_of(learning, question.number)
    assert talk.kept is not None, talk
    made = read(config / "gauges" / "arm-gauge.toml")
    assert made.talk.mode == ("key" if how.sends == "key" else "asks")
    assert made.counts_up == of.counts_up
