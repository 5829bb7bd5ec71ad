"""What an open audit holds for one idea or one stretch of its way, a file each.

None knows the audit that holds it, decides, or folds an event.
"""
