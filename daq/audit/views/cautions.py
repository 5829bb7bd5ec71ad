"""The usual cautions, each at the step where it matters.

All are common practice, no source. The machine's manual, local rules and qualified
people come before every one of them.
"""

from daq.audit.parts import Step

FIRST = "The machine's manual and your shop's rules come first."

CAUTIONS: dict[Step, tuple[str, ...]] = {
    "prepare": (
        "Isolate the machine, lock it out, then try to start it.",
        "Never defeat a lock-out to release a spindle brake.",
        "This screen has its own supply; it stays on.",
        FIRST,
    ),
    "touch-free": (
        "Check that arm and cable swing clear all the way round.",
        "Put the pedal where nobody trips over it.",
    ),
    "touch-push": (),
    "as-found": ("Turn the spindle by its nose, never by the gauge or the drawbar.",),
    "park": ("Turn the spindle by its nose, never by the gauge or the drawbar.",),
    "question": (),
    "loosen": (
        "Crack the bolts only; never remove a nut. The head is heavy: have it supported.",
        "Hands out of the joint, nobody beneath the head.",
        "Before a big nod raise the quill: the gauge must not be under a falling head.",
    ),
    "move": (
        "Do not force the adjuster against tight bolts.",
        "Watch the gauge's travel.",
    ),
    "check": ("Turn the spindle by its nose, never by the gauge or the drawbar.",),
    "tighten": ("No extension bar on the wrench.",),
    "closer": (
        "Crack the bolts only; never remove a nut. The head is heavy: have it supported.",
        "Hands out of the joint, nobody beneath the head. Take the gauge out of the way.",
        "Pull the bolts up again before anything is read.",
    ),
    "final": ("Turn the spindle by its nose, never by the gauge or the drawbar.",),
    "clear": ("Arm out and wrench off the drawbar before power comes back.",),
    "sign": (),
}
