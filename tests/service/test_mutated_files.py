"""Mistakes nobody foresaw, put into every file of a shop: each ends in words, and in few of them.

TOML 1.0 asks of a reader that it refuse whole numbers it cannot hold ("an error must be
thrown"), and sets no limit to how deep a value may nest: https://toml.io/en/v1.0.0#integer
"""

import re

import hypothesis
import pytest
from hypothesis import given
from hypothesis import strategies as st

from daq.service.files import load, shipped
from daq.settings import SettingsError
from tests.words import faults

steady = hypothesis.settings(
    deadline=None,
    derandomize=True,
    phases=[hypothesis.Phase.generate],  # a case reads a whole shop: too slow to shrink
)
MOST_ECHOED = 120
"""How many characters of what was found a message may repeat: about a line."""
FILLER = "§"  # stands in no message of its own accord

DEEP = st.integers(200, 6000)
LONG = st.integers(130, 6000)


def nested(opening, closing):
    return DEEP.map(lambda n: opening * n + closing * n)


values = st.one_of(
    LONG.map(lambda n: f'"{FILLER * n}"'),
    LONG.map(lambda n: f'["{FILLER * n}"]'),
    LONG.map(lambda n: str(["front"] * n)),
    LONG.map(lambda n: str([f"any {'7' * n}"])),
    LONG.map(lambda n: f'{{ "{FILLER * n}" = 1 }}'),
    LONG.map(lambda n: f'{{ "{FILLER * n}" = "mm" }}'),
    LONG.map(lambda n: f'{{ mm = 0.01, "{FILLER * n}" = 0.01 }}'),
    LONG.map(lambda n: f'{{ "{FILLER * n}" = 1, "{FILLER * n}" = 2 }}'),
    LONG.map(lambda n: f'"{FILLER * n} mm"'),
    LONG.map(lambda n: f'"{"7" * n} mm"'),
    LONG.map(lambda n: f'"(?P<{FILLER * n}>x)"'),
    LONG.map(lambda n: f'"(?P<{"q" * n}>x)(?P<{"q" * n}>y)"'),
    LONG.map(lambda n: f'"{chr(92) * 2}{FILLER * n}"'),
    LONG.map(lambda n: "7" * n),
    LONG.map(lambda n: "0x" + "7" * n),
    LONG.map(lambda n: "0o" + "7" * n),
    LONG.map(lambda n: "7" * n + ".5"),
    LONG.map(lambda n: f"1e{n}"),
    nested("[", "]"),
    DEEP.map(lambda n: f'"{"(?:" * n}x{")" * n}"'),
    DEEP.map(lambda n: f'"(?P<value>[0-9]{{{"9" * n}}})"'),
    nested("{ a = ", "}").map(lambda text: text.replace("= }", "= 1 }", 1)),
    st.sampled_from(["nan", "-inf", "true", "1979-05-27T07:32:00Z", "[]", "{}", '""', "0", "-1"]),
)
keys = st.one_of(
    LONG.map(lambda n: f'"{FILLER * n}"'),
    DEEP.map(lambda n: ".".join(["a"] * n)),
    LONG.map(lambda n: f'a."{FILLER * n}"'),
)
KEY = re.compile(r"^#? ?([A-Za-z_]+) = .*$", re.MULTILINE)


@pytest.fixture(scope="module")
def texts():
    """The shipped files' texts by their names."""
    folder = shipped()
    names = sorted(str(path.relative_to(folder)) for path in folder.rglob("*.toml"))
    return {name: (folder / name).read_text(encoding="utf-8") for name in names}


def mutated(draw, text):
    """The text with one line's key or value, or a key below it, made another."""
    line = draw(st.sampled_from(list(KEY.finditer(text))), label="line")
    key, value = line[1], line[0].partition("= ")[2]
    what = draw(st.sampled_from(["value", "key", "below"]), label="what")
    if what == "value":
        value = draw(values, label="value")
    elif what == "key":
        key = draw(keys, label="key")
    else:
        key, value = f"{key}.{draw(keys, label='key')}", "1"
    return f"{text[: line.start()]}{key} = {value}{text[line.end() :]}"


@pytest.mark.timeout(900)  # a thousand take a minute on a quiet machine
@pytest.mark.parametrize("cases", [10, pytest.param(1000, marks=pytest.mark.long)])
def test_every_mistake_is_told_in_a_line(texts, tmp_path_factory, cases):
    some = hypothesis.settings(steady, max_examples=cases)
    some(given(data=st.data())(told_in_a_line))(texts, tmp_path_factory)


def told_in_a_line(texts, tmp_path_factory, data):
    name = data.draw(st.sampled_from(list(texts)), label="file")
    changed = texts | {name: mutated(data.draw, texts[name])}
    folder = tmp_path_factory.mktemp("shop", numbered=True)
    for each, text in changed.items():
        path = folder / each
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    try:
        load(folder)
    except SettingsError as error:
        for problem in faults(error):
            said = problem.replace(str(folder), "")
            assert "\n" not in said
            assert said.count(FILLER) <= MOST_ECHOED
            runs = [len(run[0]) for run in re.finditer(r"(?:a\.|front, )+|(.)\1*", said)]
            assert max(runs) <= MOST_ECHOED
