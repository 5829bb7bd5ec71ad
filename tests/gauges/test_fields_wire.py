"""Frames said field by field, through a reader on a real terminal at 500 of them a second."""

import random
import time

import pytest

from tests.gauges.hand_written import CLASSES, channels, real
from tests.patience import until

EVERY_S = 1 / 500
IN_CORE = (channels, real)

cases = [(made_by, 300) for made_by in IN_CORE]
cases += [pytest.param(each, 10_000, marks=pytest.mark.long) for each in CLASSES]


@pytest.mark.timeout(600)
@pytest.mark.parametrize(("made_by", "count"), cases)
def test_each_frame_of_a_hurried_gauge_comes_exactly(made_by, count, far_end, make_reader, heard):
    rng = random.Random(made_by.__name__)
    sent = [made_by(rng.randrange(-99_999, 100_000) / 1000) for _ in range(count)]
    frame = {"shape": "fields", **sent[0][0]}
    # No gauge can pause for 10 ms, the shortest there is, 500 times a second: those that are told
    # apart so send as soon as the frame before was heard.
    pauses = frame.get("apart") == "pause"
    reader = make_reader(far_end.path, frame=frame, talk={"interval": "20 ms", "pause": "10 ms"})
    reader.start()
    heard.opened()
    silent, looks = time.monotonic(), heard.looks
    # Once it has heard a silence, what comes is the beginning of a frame.
    until(lambda: time.monotonic() - silent > 0.03 and heard.looks > looks + 4)
    came, begin = [], time.monotonic()
    for n, (_, wire, _) in enumerate(sent):
        far_end.send(wire)
        if pauses:
            came.append(heard.sample().text)
        else:
            time.sleep(max(0.0, begin + n * EVERY_S - time.monotonic()))
    came += [heard.sample().text for _ in range(count - len(came))]
    assert [float(text) for text in came] == [float(text) for _, _, text in sent]
    assert (reader.wire.bad, reader.wire.damaged) == (0, 0)
    assert heard.samples.empty()
