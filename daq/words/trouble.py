"""What went wrong and can be mended by whoever gave the command."""


class Trouble(Exception):
    """Its text says what was found, what is allowed and where; nothing else need be shown."""
