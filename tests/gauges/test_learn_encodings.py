"""From bytes, and the faces that were typed meanwhile, to the frames: every class of gauge."""

from decimal import Decimal

import pytest

from daq.gauges.learn.encodings import apart, encodings
from daq.gauges.learn.evidence import Evidence, Held
from daq.gauges.learn.face import TypedFace, typed
from daq.gauges.learn.framing import framing
from daq.gauges.learn.live.large import large
from daq.gauges.learn.scaled import line, simplest
from daq.gauges.learn.seen import believed
from daq.gauges.learn.speeds import left
from daq.virtual.uart import LineEnd, resample
from tests.gauges.learn_classes import CLASSES
from tests.gauges.learn_made import of_model, of_trial
from tests.gauges.learn_trials import CHECKED, NOT_TO_BE_TOLD, PLAIN
from tests.rigs.shelf import SHELF

UNDECODABLE = {"bits-complement"}
"""Neither content nor pauses tell its frames apart: no file could describe it."""
MODELS = {key: model for key, model in {**SHELF, **CLASSES}.items() if key not in UNDECODABLE}
TRIALS = {**CHECKED, **NOT_TO_BE_TOLD, **PLAIN}
ALWAYS = {
    "text-no-end", "text-inch-mark", "bcd-swapped", "bcd-hex-asked", "bits-lsb", "bits-inch",
    "three-transmitters", "block-of-lines", "power-of-ten", "hex-characters", "float-and-crc",
    "raw-counts", "offset-binary", "sealed-in-brackets", "letter-behind", "xor hex",
    "crc-16 hex", "counter at the number", "check in front", "time of day", "another channel",
    "packed and sum in digits", "counter and check around", "a check on a counter", "inches",
    "half thousandths", "fast",
}  # fmt: skip
"""One of each class; the others in the long run."""


def each(names):
    return [
        name if name in ALWAYS else pytest.param(name, marks=pytest.mark.long) for name in names
    ]


@pytest.mark.parametrize("name", each(MODELS))
def test_a_gauge_is_read_as_its_face_shows(name):
    seen = of_model(MODELS[name])
    assert seen.wrong(encodings(seen.evidence())[0].table) is None


@pytest.mark.parametrize("name", each(TRIALS))
def test_a_number_is_read_without_what_stands_beside_it(name):
    seen = of_trial(TRIALS[name])
    assert seen.wrong(encodings(seen.evidence())[0].table) is None


@pytest.mark.parametrize("name", sorted(UNDECODABLE))
def test_what_no_file_can_describe_is_not_guessed(name):
    assert encodings(of_model(SHELF[name]).evidence()) == []


@pytest.mark.parametrize(
    ("name", "check"),
    [
        ("xor hex", {"kind": "xor"}),
        ("crc-16 hex behind a comma", {"kind": "crc-16/umts", "over": [0, -5]}),
        ("float-and-crc", {"kind": "crc-16/modbus", "sent": "low-first"}),
        ("sealed-in-brackets", {"kind": "xor", "sent": "high-first", "over": [1]}),
    ],
)
def test_a_check_value_is_known_for_what_it_is(name, check):
    seen = of_trial(TRIALS[name]) if name in TRIALS else of_model(MODELS[name])
    assert encodings(seen.evidence())[0].table["check"] == check


def test_a_number_that_never_stood_in_the_frames_is_found_nowhere():
    seen = of_model(MODELS["text-no-end"])
    evidence = seen.evidence()
    free, *rest = evidence.held
    other = Held(TypedFace(free.face.number + Decimal("0.5"), 2, "mm"), free.pieces)
    assert encodings(Evidence((other, *rest), evidence.heard, True)) == []


def test_the_other_unit_is_no_fit():
    evidence = of_trial(PLAIN["plain"]).evidence()
    held = tuple(
        Held(TypedFace(h.face.number, h.face.places, "in"), h.pieces) for h in evidence.held
    )
    assert encodings(Evidence(held, evidence.heard, True)) == []


def test_what_fits_equally_is_told_apart_by_what_it_reads():
    """Two channels that show the same number at every face typed, and others in between."""
    between = [f"A+1.{k}00 B+1.{k}50\r\n".encode() for k in range(1, 9)]
    frames = [b"A+1.000 B+1.000\r\n"] * 5 + between + [b"A-0.500 B-0.500\r\n"] * 5
    faces = (TypedFace(Decimal("1.000"), 3, "mm"), TypedFace(Decimal("-0.500"), 3, "mm"))
    held = (Held(faces[0], tuple(frames[:5])), Held(faces[1], tuple(frames[-5:])))
    evidence = Evidence(held, tuple(frames))
    assert len(apart(encodings(evidence), evidence)) >= 2


@pytest.mark.parametrize(
    ("text", "face"),
    [
        ("-0.123 mm", TypedFace(Decimal("-0.123"), 3, "mm")),
        (" +1,25mm ", TypedFace(Decimal("1.25"), 2, "mm")),
        (".0485 in", TypedFace(Decimal("0.0485"), 4, "in")),
        ('0.0005"', TypedFace(Decimal("0.0005"), 4, "in")),
        ("\N{MINUS SIGN}12.70", TypedFace(Decimal("-12.70"), 2, "mm")),
        ("7 Inch", TypedFace(Decimal(7), 0, "in")),
    ],
)
def test_a_face_is_read_as_people_type_it(text, face):
    assert typed(text, "mm") == face


@pytest.mark.parametrize("text", ["", "mm", "yes", "1.2.3", "12 cm", "0x12", "1e3", "- -1"])
def test_what_is_no_face_is_none(text):
    assert typed(text, "mm") is None


def test_a_number_without_a_unit_needs_one_known():
    assert typed("1.000", None) is None


@pytest.mark.parametrize("baud", [300, 600, 1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200])
def test_a_speed_is_told_by_how_its_bits_fold(baud):
    """Bytes of no structure at all, resampled bit by bit at every speed that is tried."""
    speeds = (9600, 19200, 4800, 38400, 2400, 115200, 57600, 1200, 600, 300)
    sent = bytes(range(7, 250, 11)) * 3
    heard = {}
    while (speed := next((s for s in left(heard, speeds) if s not in heard), None)) is not None:
        heard[speed] = resample(sent, LineEnd(baud), LineEnd(speed), gap_bits=3)
    assert baud in list(left(heard, speeds))
    assert len(list(left(heard, speeds))) <= (2 if baud in (38400, 57600, 115200) else 1)


@pytest.mark.parametrize(
    ("sent", "heard"),
    [
        (LineEnd(9600, 8, "none"), (8, "none", 1)),
        (LineEnd(9600, 7, "even"), (7, "even", 1)),
        (LineEnd(9600, 7, "odd"), (7, "odd", 1)),
        (LineEnd(9600, 7, "none", 2), (7, "none", 2)),
        (LineEnd(9600, 7, "mark"), (7, "none", 2)),
    ],
)
def test_parity_shows_in_bytes_that_are_heard_without_it(sent, heard):
    text = b"+001.234 mm\r\n-056.789 in\r\n"
    assert framing(resample(text, sent, LineEnd(9600))) == heard


def test_a_factor_and_an_offset_are_the_simplest_that_fit():
    faces = [TypedFace(Decimal(text), 3, "mm") for text in ("-0.350", "0.650", "0.020")]
    found = line([18600, 22600, 20080], faces)
    assert (found.keys["scale"], found.keys["offset"]) == (0.00025, -5.0)
    assert line([1, 2], faces[:2]) is None
    assert simplest(3, 2) is None


@pytest.mark.parametrize(
    ("pieces", "number"),
    [
        ((b"CH2;10:07;+01.234 mm\r\nCH2;10:08;+01.235 mm\r\nCH2;",), "+01.235 mm"),
        ((b"\x02 -0,350\x03", b"\x02 -0,351\x03"), "-0,351"),
        ((b"\xf0\x91",), ""),
    ],
)
def test_the_number_that_is_believed_before_anything_is_typed(pieces, number):
    assert believed(pieces) == number


def test_a_number_is_drawn_large_with_its_unit_behind():
    rows = large("-1.5 mm").splitlines()
    assert len(rows) == 5
    assert rows[-1].endswith("mm")
    assert len({row[0:3] for row in rows}) > 1
