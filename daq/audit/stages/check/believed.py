"""What of the story can be believed after a pair that does not fit it."""

from daq.audit.facts import disproves
from daq.audit.move_events import Strange
from daq.audit.state import Job
from daq.squaring.story import Story, cut_off, disowned, distrusted, is_read, split
from daq.words import Axis

UNTRUSTED = ("bumped", "wrong-adjuster", "astray", "fell-back", "crept")
"""What spoils the readings since the move; an axis that answers the other way round does not."""


def believed(job: Job, axis: Axis, odd: Strange, story: Story, readings: int) -> Story:
    """The story as far as it can be believed; its latest so many readings are the pair.

    Where a turn is what does not fit, it is the turn that is not; one that was read once already
    stands, and so does all that is tight: then something came in between.
    """
    if odd not in UNTRUSTED:
        return story
    if axis not in job.loose or is_read(split(story, readings)[0]):
        return cut_off(story, readings)
    return disowned(story) if disproves(job, axis, odd) else distrusted(story)
