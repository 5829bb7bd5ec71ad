"""schema.sql and the question whether a file follows it."""

import functools
from dataclasses import dataclass
from pathlib import Path

import apsw

from daq.words import Said, said

SCHEMA_SQL = Path(__file__).with_name("schema.sql").read_text(encoding="utf-8")


@dataclass(frozen=True, slots=True)
class FileFormat:
    """What a database file says about itself: whose it is, its format, its objects."""

    application_id: int
    format: int
    objects: tuple[tuple[str, str], ...]


def shape_of(connection: apsw.Connection) -> FileFormat:
    """Read the shape of the database behind `connection`. Raises apsw.Error."""
    rows = connection.execute(
        "SELECT CAST(name AS BLOB), CAST(coalesce(sql, '') AS BLOB) FROM sqlite_schema"
        " WHERE name NOT LIKE 'sqlite!_%' ESCAPE '!' ORDER BY name"
    )
    # A flipped bit may leave what is no UTF-8.
    objects = tuple(
        (name.decode(errors="replace"), sql.decode(errors="replace")) for name, sql in rows
    )
    return FileFormat(
        application_id=int(connection.pragma("application_id")),
        format=int(connection.pragma("user_version")),
        objects=objects,
    )


@functools.cache
def own_format() -> FileFormat:
    """Give the shape that schema.sql makes."""
    connection = apsw.Connection(":memory:")
    try:
        connection.execute(SCHEMA_SQL)
        return shape_of(connection)
    finally:
        connection.close()


def fault_in(found: FileFormat) -> Said | None:
    """What is wrong with a file of shape `found`; None if it is a ledger of this format."""
    own = own_format()
    if found.application_id != own.application_id:
        return said("database-of-others")
    if found.format != own.format:
        return said("other-format", found=found.format, reads=own.format)
    for name, sql in sorted(set(own.objects) ^ set(found.objects)):
        how = "missing" if (name, sql) in own.objects else "foreign"
        return said("object-amiss", name=name, how=how)
    return None
