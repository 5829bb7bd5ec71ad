-- The list of all audits, made from the ledger's rows and from nothing else. It may be lost at any
-- time: it is then made anew.
--
-- The columns after digest are computed from line, so they cannot say anything else than it does.

PRAGMA application_id = 1752396393;
PRAGMA user_version = 1;

-- Of which ledger, up to which row of which hash, by which release. One row.
CREATE TABLE made (
    one    INTEGER PRIMARY KEY CHECK (one = 1),
    ledger TEXT NOT NULL,
    engine TEXT NOT NULL,
    at     INTEGER NOT NULL,
    hash   TEXT NOT NULL
) STRICT;

CREATE TABLE audits (
    opened   INTEGER PRIMARY KEY,
    line     TEXT NOT NULL,
    digest   TEXT NOT NULL,
    audit    TEXT AS (line ->> '$.audit') VIRTUAL,
    machine  TEXT AS (line ->> '$.machine') VIRTUAL,
    kind     TEXT AS (line ->> '$.kind') VIRTUAL,
    verdict  TEXT AS (line ->> '$.verdict') VIRTUAL,
    day      TEXT AS (line ->> '$.day') VIRTUAL,
    state    TEXT AS (line ->> '$.state') VIRTUAL,
    practice INTEGER AS (line ->> '$.practice') VIRTUAL,
    voided   INTEGER AS (line ->> '$.taken_back' > 0) VIRTUAL,
    closed   INTEGER AS (line ->> '$.closed.row') VIRTUAL,
    sure     INTEGER AS (line ->> '$.closed.sure') VIRTUAL
) STRICT;

CREATE UNIQUE INDEX audits_by_id ON audits (audit);
CREATE INDEX audits_by_machine ON audits (machine);
CREATE INDEX audits_by_kind ON audits (kind);
CREATE INDEX audits_by_verdict ON audits (verdict);
CREATE INDEX audits_by_day ON audits (day);
CREATE INDEX audits_by_state ON audits (state);
CREATE INDEX audits_of_practice ON audits (practice);
CREATE INDEX audits_voided ON audits (voided);

CREATE TABLE gauges (
    opened     INTEGER NOT NULL,
    key        TEXT NOT NULL,
    number     TEXT NOT NULL,
    calibrated TEXT
) STRICT;

CREATE INDEX gauges_by_number ON gauges (number, opened);
CREATE INDEX gauges_by_key ON gauges (key, opened);

CREATE TABLE people (
    person TEXT NOT NULL,
    opened INTEGER NOT NULL,
    PRIMARY KEY (person, opened)
) STRICT, WITHOUT ROWID;

-- Every check of a gauge against known lengths, on the bench.
CREATE TABLE checks (
    at     INTEGER PRIMARY KEY,
    gauge  TEXT NOT NULL,
    number TEXT NOT NULL,
    day    TEXT NOT NULL,
    passed INTEGER NOT NULL
) STRICT;

CREATE INDEX checks_by_number ON checks (number, at);
CREATE INDEX checks_by_day ON checks (day) WHERE NOT passed;
