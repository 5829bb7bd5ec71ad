-- The ledger's file. Rows are only ever added: the triggers refuse everything
-- else, and the chain of hashes shows whatever gets past them.
--
-- The columns after hash are computed from body, so they cannot say anything
-- else than the text that was hashed.

PRAGMA application_id = 1751413615;
PRAGMA user_version = 3;

CREATE TABLE events (
    seq     INTEGER PRIMARY KEY,
    body    TEXT NOT NULL,
    hash    BLOB NOT NULL CHECK (length(hash) = 32),
    type    TEXT AS (body ->> '$.type') VIRTUAL,
    machine TEXT AS (body ->> '$.machine') VIRTUAL,
    audit   TEXT AS (body ->> '$.audit') VIRTUAL,
    cause   TEXT AS (body ->> '$.cause.id') VIRTUAL
) STRICT;

CREATE INDEX events_by_machine ON events (machine);
CREATE INDEX events_by_audit ON events (audit);
CREATE INDEX events_by_cause ON events (cause) WHERE cause IS NOT NULL;

-- Evidence. What was let go keeps its digest, and the row that says so.
CREATE TABLE chunks (
    digest BLOB PRIMARY KEY NOT NULL CHECK (length(digest) = 32),
    bytes  BLOB,
    let_go INTEGER,
    CHECK ((bytes IS NULL) = (let_go IS NOT NULL))
) STRICT;

CREATE INDEX chunks_by_let_go ON chunks (let_go, digest) WHERE let_go IS NOT NULL;

-- Who did something. A row holds the id alone: a name can be put right, or taken out, and no
-- hash changes. That it was is kept, what it was before is not.
CREATE TABLE people (
    id      TEXT PRIMARY KEY NOT NULL CHECK (length(id) = 36),
    name    TEXT NOT NULL CHECK (trim(name) <> ''),
    renamed INTEGER NOT NULL DEFAULT 0 CHECK (renamed IN (0, 1))
) STRICT;

CREATE TRIGGER people_never_deleted BEFORE DELETE ON people
BEGIN SELECT RAISE(ABORT, 'a person named in a row stays; the name may be changed'); END;

-- Also refuses INSERT OR REPLACE, which deletes without firing a delete trigger.
CREATE TRIGGER events_in_order BEFORE INSERT ON events
WHEN NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM events)
BEGIN SELECT RAISE(ABORT, 'a row is added at the end, or not at all'); END;

CREATE TRIGGER events_never_updated BEFORE UPDATE ON events
BEGIN SELECT RAISE(ABORT, 'an event is never changed'); END;

CREATE TRIGGER events_never_deleted BEFORE DELETE ON events
BEGIN SELECT RAISE(ABORT, 'an event is never deleted'); END;

-- The same evidence twice is fine and is stored once.
CREATE TRIGGER chunks_stored_once BEFORE INSERT ON chunks
WHEN EXISTS (SELECT 1 FROM chunks WHERE digest = NEW.digest)
BEGIN SELECT RAISE(IGNORE); END;

-- Its bytes may go, in the transaction of the row that says so; nothing else of it ever changes.
CREATE TRIGGER chunks_never_updated BEFORE UPDATE ON chunks
WHEN NEW.digest IS NOT OLD.digest OR OLD.bytes IS NULL OR NEW.bytes IS NOT NULL
    OR 'SamplesLetGo' IS NOT (SELECT type FROM events WHERE seq = NEW.let_go)
    OR NEW.let_go IS NOT (SELECT max(seq) FROM events)
BEGIN SELECT RAISE(ABORT, 'evidence is let go by a row that says so, and never changed'); END;

CREATE TRIGGER chunks_never_deleted BEFORE DELETE ON chunks
BEGIN SELECT RAISE(ABORT, 'evidence is never deleted'); END;
