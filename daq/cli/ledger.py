"""`headsweep ledger ...`: what can be asked of the record, and done to it, at the command line."""

import argparse
from collections.abc import Callable, Mapping
from pathlib import Path

EXIT_CODES = (
    "Exit codes: 0 all is well, 2 the ledger or the command cannot be read,"
    " 3 the ledger is altered or damaged, 4 a decision differs; 1 is a mistake in the program."
)

ACTIONS = (
    ("verify", "check every row; names the first bad one"),
    ("show", "list what is recorded"),
    ("export", "print every row exactly as stored"),
    ("backup", "copy a ledger that may be in use"),
    ("restore", "put a copy, or an export with evidence, into an empty folder"),
    ("let-go", "let the raw samples of old audits go, with the service stopped"),
    ("carry-on", "begin a new ledger in the place of one that is damaged or gone"),
    ("recheck", "make every decision again from what was recorded"),
    ("people", "list who is named in the record, or put a name right"),
    ("key", "make the shop's key, which signs each audit"),
    ("schema", "print the JSON schema of a row's body"),
    ("check-page", "write the page where anybody checks an export, with no headsweep"),
)


def add(p: argparse.ArgumentParser) -> None:
    """Add its actions."""
    actions = p.add_subparsers(dest="action", required=True, metavar="ACTION")
    for name, say in ACTIONS:
        one = actions.add_parser(name, help=say, epilog=EXIT_CODES)
        if name in ("schema", "check-page"):
            _add_without_data(one, page=name == "check-page")
            continue
        one.add_argument("--data", type=Path, required=True, help="the data folder")
        one.set_defaults(act=_ledger, audit=None, evidence=False, yes=False)
        _ACTIONS[name](one)


def _add_verify(one: argparse.ArgumentParser) -> None:
    _add_known(one, all_of_it=True)


def _add_show(one: argparse.ArgumentParser) -> None:
    one.add_argument("--audit", help="only this audit's UUID")


def _add_export(one: argparse.ArgumentParser) -> None:
    one.add_argument("--evidence", action="store_true", help="with every sample")


def _add_backup(one: argparse.ArgumentParser) -> None:
    where = one.add_mutually_exclusive_group(required=True)
    where.add_argument("--to", type=Path, help="a folder to be made")
    where.add_argument(
        "--into", type=Path, metavar="STICK", help="a folder that keeps the latest copies"
    )
    one.add_argument("--keep", type=_copies, default=14, metavar="N", help="so many of them (14)")
    one.add_argument("--config", type=Path, help="with --into: the shop's files, copied along")
    one.set_defaults(act=_backup)


def _add_restore(one: argparse.ArgumentParser) -> None:
    _add_known(one, all_of_it=False)
    one.add_argument(
        "--from", dest="source", type=Path, required=True, metavar="BACKUP",
        help="the folder of a copy, or the file of an export with its evidence",
    )  # fmt: skip
    one.set_defaults(act=_restore)


def _add_let_go(one: argparse.ArgumentParser) -> None:
    one.add_argument(
        "--older-than", type=_days, required=True, metavar="DAYS",
        help="how long ago an audit was closed whose samples go",
    )  # fmt: skip
    one.add_argument(
        "--any-clock", action="store_true",
        help="go by the dates there are, though no time server has set this clock",
    )  # fmt: skip
    one.set_defaults(act=_let_go)


def _add_key(one: argparse.ArgumentParser) -> None:
    one.set_defaults(act=_key)


def _add_carry_on(one: argparse.ArgumentParser) -> None:
    one.add_argument("--yes", action="store_true", help="begin it without asking")


def _add_recheck(one: argparse.ArgumentParser) -> None:
    one.add_argument("--json", action="store_true", help="an object a line, and one at the end")
    one.set_defaults(act=_recheck)


def _add_people(one: argparse.ArgumentParser) -> None:
    one.add_argument(
        "--correct", action="append", default=[], metavar="ID=NAME", help="a name put right"
    )


_ACTIONS: Mapping[str, Callable[[argparse.ArgumentParser], None]] = {
    "verify": _add_verify,
    "show": _add_show,
    "export": _add_export,
    "backup": _add_backup,
    "restore": _add_restore,
    "let-go": _add_let_go,
    "carry-on": _add_carry_on,
    "key": _add_key,
    "recheck": _add_recheck,
    "people": _add_people,
}
"""What an action asks for besides the data folder."""


def _add_without_data(p: argparse.ArgumentParser, *, page: bool) -> None:
    p.set_defaults(act=_check_page if page else _schema)
    if page:
        p.add_argument("-o", dest="to", type=Path, required=True, metavar="FILE", help="a file")


def _add_known(p: argparse.ArgumentParser, *, all_of_it: bool) -> None:
    """What is known from elsewhere, which the record must agree with."""
    p.add_argument(
        "--anchor", action="append", default=[], metavar="ROW:HASH", help="a row's printed hash"
    )
    if not all_of_it:
        return
    p.add_argument(
        "--anchors", action="append", default=[], metavar="FOLDER", type=Path,
        help="a folder of reports and exports, whose hashes it must have",
    )  # fmt: skip
    p.add_argument(
        "--key", action="append", default=[], metavar="PUBLIC",
        help="a public key that each signed audit must be signed by",
    )  # fmt: skip


def _ledger(args: argparse.Namespace) -> int:
    from daq.ledger.commands import run
    from daq.says import words

    return run(args, words)


def _days(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= 36_500:
        raise argparse.ArgumentTypeError(f"found {text!r}; allowed: 1 to 36500, in days")
    return int(text)


def _copies(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= 1000:
        raise argparse.ArgumentTypeError(f"found {text!r}; allowed: 1 to 1000 copies")
    return int(text)


def _backup(args: argparse.Namespace) -> int:
    if args.into is None:
        return _ledger(args)
    from daq.cli.copies import run
    from daq.says import words

    return run(args, words)


def _let_go(args: argparse.Namespace) -> int:
    from daq.cli.let_go import run
    from daq.says import words

    return run(args, words)


def _restore(args: argparse.Namespace) -> int:
    from daq.cli.restore import run
    from daq.says import words

    return run(args, words)


def _recheck(args: argparse.Namespace) -> int:
    from daq.cli.recheck import run
    from daq.says import words

    return run(args, words)


def _key(args: argparse.Namespace) -> int:
    from daq.says import words
    from daq.service.shop_key import run

    return run(args.data, words)


def _schema(_: argparse.Namespace) -> int:
    import json

    from daq.audit.published import row_schema

    print(json.dumps(row_schema(), indent=1, ensure_ascii=False))
    return 0


def _check_page(args: argparse.Namespace) -> int:
    from daq.says import language
    from web.check_page import check_page

    args.to.write_text(check_page(language()).html, encoding="utf-8")
    return 0
