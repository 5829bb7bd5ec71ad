from daq.metrology.presets import DEFAULT, PRESETS
from tests.words import en

TRADE = "common practice, no source"


def test_limits_of_the_trade():
    # Common practice, no source.
    found = {p.key: p.limit_mm for p in PRESETS if en(p.source) == TRADE}
    assert found == {"roughing": 0.05, "general": 0.025, "facing": 0.015, "boring": 0.010}


def test_a_machine_starts_with_general_work():
    preset = next(p for p in PRESETS if p.key == DEFAULT)
    assert (preset.limit_mm, preset.over_mm) == (0.025, 300.0)


def test_the_limit_of_machine_acceptance():
    # ISO 1701-2, from memory, number not seen: 0.025 over 300.
    preset = next(p for p in PRESETS if p.key == "acceptance")
    assert (preset.limit_mm, preset.over_mm) == (0.025, 300.0)
    assert en(preset.source) == "ISO 1701-2 (from memory, number not seen)"


def test_every_preset_can_be_told_apart_and_says_where_it_is_from():
    assert len({p.key for p in PRESETS}) == len({en(p.name) for p in PRESETS}) == len(PRESETS)
    assert all(en(p.source) for p in PRESETS)
