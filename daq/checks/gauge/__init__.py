"""The check of a gauge itself: its contact is stepped through known lengths, up and down.

Here live the order of the lengths, the errors, repeatability and hysteresis that the
readings show, and the judgement against the gauge's own maximum permissible error.
Readings are `pushed_in`, mm, from any zero. No machine, port or file is known here.
"""
