"""The one place where a gauge's direction and its stylus cosine are applied.

`pushed_in` grows as the contact is pushed toward the gauge's body, so on a sweep it is
larger where the circle is lower. `face` is the number the gauge itself shows. Both are
millimetres with the gauge's own zero.

A lever stylus at an angle α to the surface turns by more than the surface moved:
true = indicated × cos α (textbook geometry of the test indicator). A plunger has cosine 1.
"""


def pushed_in(face_mm: float, counts_up: bool, cosine: float) -> float:
    """Return how far the contact is pushed in, mm, for a number on the gauge's face, mm.

    `counts_up` says whether the face grows as the contact is pushed in; `cosine` is that
    of the angle between stylus and surface.
    """
    return face_mm * cosine if counts_up else -face_mm * cosine


def face(pushed_mm: float, counts_up: bool, cosine: float) -> float:
    """Return the number on the gauge's face, mm, for a contact pushed in by `pushed_mm`.

    The inverse of `pushed_in`; `cosine` must not be zero.
    """
    return pushed_mm / cosine if counts_up else -pushed_mm / cosine
