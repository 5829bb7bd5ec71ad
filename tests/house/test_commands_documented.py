"""The README and the command line agree: every command is told, every told one exists."""

import argparse
import re
from collections.abc import Iterator

import pytest

from daq.cli import parser

CODE_BLOCK = re.compile(r"^```[^\n]*\n(.*?)^```", re.MULTILINE | re.DOTALL)
CODE_SPAN = re.compile(r"`([^`\n]+)`")
# A word follows, no sign of the shell; of `sudo -u headsweep headsweep …` the second one counts.
COMMAND = re.compile(r"(?:^|[\s/])headsweep +(?!headsweep )([\w-].*)$")


def subcommands(of: argparse.ArgumentParser) -> dict[str, argparse.ArgumentParser]:
    for action in of._actions:
        if isinstance(action, argparse._SubParsersAction):
            return dict(action.choices)
    return {}


def leaves(of: argparse.ArgumentParser, path: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    inner = subcommands(of)
    if not inner:
        yield path
    for name, sub in inner.items():
        yield from leaves(sub, (*path, name))


def told(text: str) -> list[list[str]]:
    """Arguments of each `headsweep …` line in a code block or a code span of the text."""
    blocks = "".join(CODE_BLOCK.findall(text)).replace("\\\n", " ")
    lines = blocks.splitlines()
    lines += CODE_SPAN.findall(CODE_BLOCK.sub("", text))
    return [m.group(1).split(" #")[0].split() for line in lines if (m := COMMAND.search(line))]


def resolve(arguments: list[str]) -> tuple[tuple[str, ...], list[str]]:
    """The subcommands that the arguments name, and what is wrong with them."""
    at, path, wrong = parser(), [], []
    for argument in arguments:
        inner = subcommands(at)
        if argument.startswith("-"):
            option = argument.split("=")[0]
            wrong += [] if option in at._option_string_actions else [f"no option {option}"]
        elif argument in inner:
            path.append(argument)
            at = inner[argument]
        elif inner:
            wrong.append(f"no command {argument}")
            break
    return tuple(path), wrong


def test_lines_are_found_in_blocks_and_spans():
    text = "Run `headsweep demo --port 80`.\n```sh\n.venv/bin/headsweep run --x # why\n```\n"
    assert told(text) == [["run", "--x"], ["demo", "--port", "80"]]


@pytest.mark.parametrize("name", ["README.md", "hardware/README.md"])
def test_each_told_command_exists(tree, name):
    commands = told((tree.root / name).read_text(encoding="utf-8"))
    assert commands
    assert {" ".join(c): wrong for c in commands if (wrong := resolve(c)[1])} == {}


SCRIPT = re.compile(r"\bsh ((?:hardware|tests)/\w+)([^`|\n]*)")


@pytest.mark.parametrize("name", ["README.md", "hardware/README.md"])
def test_each_told_script_is_there_and_knows_its_options(tree, name):
    """`hardware/run` hands its options on to the demo."""
    handed_on = {"hardware/run": subcommands(parser())["demo"].format_help()}
    told_so = SCRIPT.findall((tree.root / name).read_text(encoding="utf-8"))
    assert told_so
    for script, rest in told_so:
        knows = (tree.root / script).read_text(encoding="utf-8") + handed_on.get(script, "")
        assert [o for o in re.findall(r"(?<!\S)--[\w-]+", rest) if o not in knows] == [], script


def test_each_command_is_told(readme):
    paths = {resolve(arguments)[0] for arguments in told(readme)}
    assert {" ".join(leaf) for leaf in leaves(parser()) if leaf not in paths} == set()


def silent(of: argparse.ArgumentParser, path: str = "headsweep") -> Iterator[str]:
    """Commands and options without a line of help."""
    for action in of._actions:
        if isinstance(action, argparse._SubParsersAction):
            helped = {choice.dest for choice in action._choices_actions if choice.help}
            yield from (f"{path} {name}" for name in action.choices if name not in helped)
            for name, sub in action.choices.items():
                yield from silent(sub, f"{path} {name}")
        elif not action.help:
            yield f"{path} {action.dest}"


def test_each_command_and_option_explains_itself():
    bare = argparse.ArgumentParser()
    bare.add_subparsers().add_parser("show").add_argument("--all")
    assert list(silent(bare)) == ["headsweep show", "headsweep show all"]
    assert list(silent(parser())) == []


def test_the_first_command_of_the_readme_sets_up_and_starts(readme):
    first = CODE_BLOCK.search(readme)
    assert first
    assert first.group(1).strip().splitlines()[-1] == "sh hardware/run"


def test_the_test_commands_are_told(tree):
    developers = (tree.root / "DEVELOPERS.md").read_text(encoding="utf-8")
    for command in ("check", "run", "long"):
        assert f"\nsh tests/{command} " in developers, command


def test_the_readme_keeps_its_data_where_an_ordinary_user_may_write(readme):
    folders = set(re.findall(r"--data (\S+)", "\n".join(CODE_BLOCK.findall(readme))))
    assert folders
    assert {folder for folder in folders if not folder.startswith("~/")} == set()


def test_the_readme_opens_the_pages_to_others_only_after_the_own_wall_and_the_pins(readme):
    told_at = max(readme.index("headsweep wall --data"), readme.index("headsweep access add"))
    listens = [(m.start(), m.group(1)) for m in re.finditer(r"--listen (\S+):\d+", readme)]
    assert "127.0.0.1" in [host for _, host in listens]
    assert [host for at, host in listens if at < told_at and host != "127.0.0.1"] == []
