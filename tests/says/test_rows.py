"""What is said, into a row and back."""

import json

from hypothesis import given
from hypothesis import settings as hypothesis_settings
from hypothesis import strategies as st

from daq import settings
from daq.settings import SettingsError
from daq.words import Figure, Said, Shown
from tests.words import troubled

steady = hypothesis_settings(deadline=None, derandomize=True)

lengths = st.builds(Shown, st.floats(-9, 9), st.sampled_from(["mm", "in"]), st.integers(0, 6))
figures = st.builds(Figure, st.floats(-9, 9), st.integers(0, 6), st.booleans())
sayings = st.recursive(
    st.builds(Said, st.just("a")),
    lambda inner: st.builds(
        Said,
        st.text(max_size=3),
        st.dictionaries(
            st.text(max_size=3),
            st.text() | st.integers() | lengths | figures | inner | st.lists(inner).map(tuple),
            max_size=4,
        ),
    ),
)


@steady
@given(said=sayings)
def test_what_is_said_comes_back_equal_from_a_row(said):
    table = json.loads(json.dumps(settings.plain(said), allow_nan=False))
    assert settings.build(Said, table, "row", quantities="plain", limits=False) == said


def test_the_one_dataclass_with_a_tables_keys_says_what_is_wrong_in_it():
    table = {"code": "a", "of": {"past": {"mm": 1.0, "unit": "ft", "digits": 3}}}
    with troubled(SettingsError, match=r'row: of.past.unit: found "ft"; allowed: one of "mm"'):
        settings.build(Said, table, "row", quantities="plain")
