"""schema.sql and the question whether a file follows it."""

import functools
from dataclasses import dataclass
from pathlib import Path

import apsw

SCHEMA_SQL = Path(__file__).with_name("schema.sql").read_text(encoding="utf-8")


@dataclass(frozen=True, slots=True)
class Shape:
    """What a database file says about itself: whose it is, its format, its objects."""

    application_id: int
    format: int
    objects: tuple[tuple[str, str], ...]


def shape_of(connection: apsw.Connection) -> Shape:
    """Read the shape of the database behind `connection`. Raises apsw.Error."""
    rows = connection.execute(
        "SELECT name, coalesce(sql, '') FROM sqlite_schema"
        " WHERE name NOT LIKE 'sqlite!_%' ESCAPE '!' ORDER BY name"
    )
    objects = tuple((str(name), str(sql)) for name, sql in rows)
    return Shape(
        application_id=int(connection.pragma("application_id")),
        format=int(connection.pragma("user_version")),
        objects=objects,
    )


@functools.cache
def wanted() -> Shape:
    """Give the shape that schema.sql makes."""
    connection = apsw.Connection(":memory:")
    try:
        connection.execute(SCHEMA_SQL)
        return shape_of(connection)
    finally:
        connection.close()


def fault_in(found: Shape) -> str:
    """Say what is wrong with a file of shape `found`, or "" if it is a ledger of this format."""
    want = wanted()
    if found.application_id != want.application_id:
        return "this is a database, but not a ledger"
    if found.format != want.format:
        return f"the ledger has format {found.format}; this headsweep reads format {want.format}"
    for name, sql in sorted(set(want.objects) ^ set(found.objects)):
        state = "missing or altered" if (name, sql) in want.objects else "not part of a ledger"
        return f"the database's own {name} is {state}"
    return ""
