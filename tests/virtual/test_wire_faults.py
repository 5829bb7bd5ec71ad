"""What the fault switches do to frames, whatever their form."""

import random

import pytest

from daq.virtual.faults import FAULTS, TRUNCATE_EVERY, Fault, Faults, Spoiler, hits

TEXT = b"+001.234 mm\r\n"
BINARY = bytes.fromhex("FF 00 00 12 34 3F")
FRAMES = [TEXT, BINARY, b"\xc3\x10\x3c\xac"]


def spoilt(faults: Faults, frame: bytes, times: int = 60) -> list[bytes]:
    spoiler = Spoiler(faults, random.Random(2))
    return [spoiler.spoil(frame) for _ in range(times)]


@pytest.mark.parametrize("frame", FRAMES)
def test_a_sound_wire_sends_the_frame(frame: bytes) -> None:
    assert spoilt(Faults(), frame) == [frame] * 60


@pytest.mark.parametrize("frame", FRAMES)
def test_junk_comes_before_whole_frames(frame: bytes) -> None:
    for sent in spoilt(Faults(junk=True), frame):
        assert sent.endswith(frame)
        assert len(frame) < len(sent) <= len(frame) + 6


@pytest.mark.parametrize("frame", FRAMES)
def test_each_third_frame_breaks_off(frame: bytes) -> None:
    sent = spoilt(Faults(truncated=True), frame)
    broken = [one for one in sent if one != frame]
    assert len(broken) == len(sent) // TRUNCATE_EVERY
    assert all(one and frame.startswith(one) for one in broken)
    # Of text, the line end and at least a letter are missing.
    assert max(map(len, broken)) <= max(1, len(frame) - 3)


@pytest.mark.parametrize("frame", FRAMES)
def test_garbage_holds_no_frame_and_no_digit(frame: bytes) -> None:
    sent = b"".join(spoilt(Faults(garbage=True), frame, 200))
    assert len(sent) == 200 * len(frame)
    assert frame not in sent
    assert all(byte > 0x7F and byte >> 4 > 9 and byte % 16 > 9 for byte in sent)


def test_a_silent_gauge_says_nothing() -> None:
    assert spoilt(Faults(silent=True, garbage=True), TEXT) == [b""] * 60


@pytest.mark.parametrize("share", [0.0, 0.001, 0.02, 0.5, 1.0])
def test_hits_come_at_their_rate(share: float) -> None:
    """Binomial: within five standard deviations of the mean."""
    size = 100_000
    struck = list(hits(size, share, random.Random(5)))
    assert struck == sorted(set(struck))
    assert all(0 <= place < size for place in struck)
    assert abs(len(struck) - size * share) <= 5.0 * (size * share * (1.0 - share)) ** 0.5


def test_the_first_place_is_struck_as_often_as_the_last() -> None:
    rng = random.Random(6)
    struck = [set(hits(4, 0.25, rng)) for _ in range(4000)]
    counts = [sum(place in one for one in struck) for place in range(4)]
    assert all(850 < count < 1150 for count in counts)


def test_flips_turn_single_bits_over() -> None:
    sent = b"".join(spoilt(Faults(flips=0.01), TEXT, 2000))
    turned = sum((a ^ b).bit_count() for a, b in zip(sent, TEXT * 2000, strict=True))
    assert turned == pytest.approx(0.01 * 8 * len(sent), rel=0.15)


def test_drops_and_doubles_change_the_length() -> None:
    size = 2000 * len(TEXT)
    dropped = b"".join(spoilt(Faults(drops=0.02), TEXT, 2000))
    doubled = b"".join(spoilt(Faults(doubles=0.02), TEXT, 2000))
    assert size - len(dropped) == pytest.approx(0.02 * size, rel=0.2)
    assert len(doubled) - size == pytest.approx(0.02 * size, rel=0.2)
    assert spoilt(Faults(doubles=1.0), b"ab", 1) == [b"aabb"]
    assert spoilt(Faults(drops=1.0), b"ab", 1) == [b""]


def test_bursts_write_over_a_run_of_bytes() -> None:
    sent = spoilt(Faults(bursts=0.5), TEXT, 400)
    assert all(len(one) == len(TEXT) for one in sent)
    hit = [one for one in sent if one != TEXT]
    assert 150 < len(hit) < 250
    for one in hit:
        places = [k for k in range(len(TEXT)) if one[k] != TEXT[k]]
        assert places[-1] - places[0] < 8


def test_the_same_seed_does_the_same_damage() -> None:
    faults = Faults(flips=0.02, drops=0.02, doubles=0.02, bursts=0.1, junk=True)
    assert spoilt(faults, TEXT) == spoilt(faults, TEXT)
    assert spoilt(faults, TEXT) != [TEXT] * 60


@pytest.mark.parametrize("name", FAULTS)
def test_one_fault_alone_is_switched_on_by_its_name(name: Fault) -> None:
    faults = Faults(flips=0.5, weak_battery=True)
    faults.only(name)
    assert faults.named == name
    assert faults == (Faults() if name == "none" else Faults(**{name: True}))


def test_an_unknown_fault_is_refused() -> None:
    faults = Faults(junk=True)
    with pytest.raises(ValueError, match="found 'fire'; allowed: none, junk"):
        faults.only("fire")  # type: ignore[arg-type]
    assert faults.junk
