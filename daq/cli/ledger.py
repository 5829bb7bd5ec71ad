"""`headsweep ledger ...`: what can be asked of the record, and done to it, at the command line."""

import argparse
from pathlib import Path

EXIT_CODES = (
    "Exit codes: 0 all is well, 2 the ledger or the command cannot be read,"
    " 3 the ledger is altered or damaged, 4 a decision differs; 1 is a mistake in the program."
)


def add(p: argparse.ArgumentParser) -> None:
    """Add its actions."""
    actions = p.add_subparsers(dest="action", required=True, metavar="ACTION")
    for name, say in (
        ("verify", "check every row; names the first bad one"),
        ("show", "list what is recorded"),
        ("export", "print every row exactly as stored"),
        ("backup", "copy a ledger that may be in use"),
        ("restore", "put a copy, or an export with evidence, into an empty folder"),
        ("carry-on", "begin a new ledger in the place of one that is damaged or gone"),
        ("recheck", "make every decision again from what was recorded"),
        ("people", "list who is named in the record, or put a name right"),
        ("key", "make the shop's key, which signs each audit"),
        ("schema", "print the JSON schema of a row's body"),
    ):
        one = actions.add_parser(name, help=say, epilog=EXIT_CODES)
        if name == "schema":
            one.set_defaults(act=_schema)
            continue
        one.add_argument("--data", type=Path, required=True, help="the data folder")
        one.set_defaults(act=_ledger, audit=None, evidence=False, yes=False)
        if name in ("verify", "restore"):
            _add_noted(one)
        if name == "verify":
            _add_trusted(one)
        if name == "restore":
            one.add_argument(
                "--from", dest="source", type=Path, required=True, metavar="BACKUP",
                help="the folder of a copy, or the file of an export with its evidence",
            )  # fmt: skip
            one.set_defaults(act=_restore)
        if name == "show":
            one.add_argument("--audit", help="only this audit's UUID")
        if name == "backup":
            one.add_argument("--to", type=Path, required=True, help="a folder to be made")
        if name == "carry-on":
            one.add_argument("--yes", action="store_true", help="begin it without asking")
        if name == "people":
            one.add_argument(
                "--correct", action="append", default=[], metavar="ID=NAME", help="a name put right"
            )
        if name == "key":
            one.set_defaults(act=_key)
        if name == "recheck":
            one.set_defaults(act=_recheck)
        if name == "export":
            one.add_argument("--evidence", action="store_true", help="with every sample")


def _add_noted(p: argparse.ArgumentParser) -> None:
    p.add_argument(
        "--anchor", action="append", default=[], metavar="ROW:HASH", help="a row's printed hash"
    )


def _add_trusted(verify: argparse.ArgumentParser) -> None:
    verify.add_argument(
        "--anchors", action="append", default=[], metavar="FOLDER", type=Path,
        help="a folder of reports and exports, whose hashes it must have",
    )  # fmt: skip
    verify.add_argument(
        "--key", action="append", default=[], metavar="PUBLIC",
        help="a public key that each signed audit must be signed by",
    )  # fmt: skip


def _ledger(args: argparse.Namespace) -> int:
    from daq.ledger.commands import run
    from daq.says import words

    return run(args, words)


def _restore(args: argparse.Namespace) -> int:
    from daq.cli.restore import run
    from daq.says import words

    return run(args, words)


def _recheck(args: argparse.Namespace) -> int:
    from daq.app import recheck
    from daq.ledger import commands as ledger
    from daq.says import words

    if ledger.unsound(args.data, words):
        return ledger.ALTERED
    found = recheck(args.data)
    for difference in found:
        print(f"row {difference.seq}: {difference.say}")
    print("every decision comes out as recorded" if not found else f"{len(found)} differ")
    return ledger.DIFFER if found else ledger.OK


def _key(args: argparse.Namespace) -> int:
    from daq.says import words
    from daq.service.shop_key import run

    return run(args.data, words)


def _schema(_: argparse.Namespace) -> int:
    import json

    from daq.audit.published import row_schema

    print(json.dumps(row_schema(), indent=1, ensure_ascii=False))
    return 0
