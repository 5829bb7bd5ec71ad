"""What is heard of a gauge while a contact is held and worked, and the faces beside it."""

import math
import random
from decimal import Decimal

from daq.gauges.learn import judge
from daq.gauges.learn.evidence import Evidence, Held
from daq.gauges.learn.face import TypedFace
from daq.virtual.talk import StartedStream, Streaming
from daq.virtual.works import Works

HELD = 9
WORKED = 24


class Seen:
    """A gauge of which frame and face can be had at any compression, mm."""

    def __init__(self, frame, face, paused, travel_mm, places_mm, fresh_mm):
        self.frame, self.face = frame, face
        self.paused, self.travel_mm = paused, travel_mm
        self.places_mm, self.fresh_mm = places_mm, fresh_mm

    def evidence(self):
        """Held free, pushed and elsewhere, worked in between."""
        rng = random.Random(3)
        top = max(self.places_mm)
        held, heard = [], []
        for place in self.places_mm:
            frames = tuple(self.frame(place) for _ in range(HELD))
            held.append((self.face(place), frames))
            heard += frames
            heard += [
                self.frame(top * (0.5 - 0.5 * math.cos(k / 4.0 + 0.2 * rng.random())))
                for k in range(WORKED)
            ]
        together = tuple if self.paused else lambda frames: (b"".join(frames),)
        return Evidence(
            tuple(Held(face, tuple(together(frames))) for face, frames in held),
            tuple(together(heard)), self.paused, self.travel_mm,
        )  # fmt: skip

    def wrong(self, table):
        """The first compression at which a table reads another number than the face shows."""
        for place in self.fresh_mm:
            frames = tuple(self.frame(place) for _ in range(HELD))
            read = judge.decoded(table, frames)
            face = self.face(place)
            found = [(round(Decimal(str(each.value)), 9), each.unit) for each in read or ()]
            if (round(face.number, 9), face.unit) not in found or len(set(found)) > 1:
                return place, face, found[-1:]
        return None


def of_model(model):
    """A gauge of the shelf, or of the further classes."""
    works = Works(model, random.Random(1))

    def frame(place):
        look = works.look(place)
        return (model.wire.over if look.over else b"") or model.wire.encode(look.counts, look.unit)

    def face(place):
        look = works.look(place)
        scale = model.wire.scales[look.unit]
        number = Decimal(scale.last_places(look.counts)).scaleb(-scale.places)
        return TypedFace(-number if look.counts < 0 else number, scale.places, look.unit)

    talks = model.talk
    paused = not isinstance(talks, Streaming | StartedStream) or talks.interval_s > 0.025
    push = min(1.0, model.travel_mm * 0.6)
    fresh = (0.0, 0.02, 0.1, 0.35, push, 0.9 * model.travel_mm)
    return Seen(frame, face, paused, model.travel_mm, (0.0, push, 0.37 * push), fresh)


def of_trial(trial):
    """One of the gauges that are functions of counts."""
    sent = iter(range(1, 10**9))

    def counts(place):
        return round((place - 0.4) / trial.size_mm)

    def face(place):
        mm = trial.true_mm(counts(place))
        unit, places = ("in", 5) if abs(trial.size_mm - 0.00127) < 1e-9 else ("mm", 0)
        places = places or (4 if trial.size_mm < 0.0009 else 3 if trial.size_mm < 0.009 else 2)
        number = mm / 25.4 if unit == "in" else mm
        return TypedFace(Decimal(f"{number:.{places}f}"), places, unit)

    def frame(place):
        return trial.frame(counts(place), next(sent))

    fresh = (0.0, 0.302, 0.399, 0.4, 0.407, 0.523, 0.999, 1.288, 1.634, 1.999)
    return Seen(frame, face, trial.every_s > 0.03, 12.7, (0.0, 1.0, 0.537), fresh)
