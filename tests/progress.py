"""What a command says where mistakes are told, without how far it has come: a slow machine hears
of that, a quick one does not."""

import re

LINE = re.compile(r"(?m)^[a-z ]+: [\d,]+ of [\d,]+ [a-z]+.*\n")


def besides(stderr: str) -> str:
    return LINE.sub("", stderr)
