-- Every record of every table has the next number of one count, and a hash over itself and the record before it.
-- A later version adds tables; it never changes these, or the hashes of old records would no longer be right.

-- Bytes that audits rest on, each once: suppliers' files, site files, registers, the list of the program's tables.
CREATE TABLE content (
    number INTEGER PRIMARY KEY,
    sha256 TEXT NOT NULL UNIQUE CHECK (length(sha256) = 64),
    size   INTEGER NOT NULL,
    packed BLOB NOT NULL,                              -- deflate (RFC 1951)
    hash   BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT;

-- One call of the program.
CREATE TABLE audit (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL,
    day      TEXT NOT NULL,                            -- day that the audit is for
    time     TEXT NOT NULL,                            -- when it was recorded, with the zone (RFC 3339)
    host     TEXT NOT NULL,
    user     TEXT NOT NULL,
    program  TEXT NOT NULL,                            -- version
    tables   TEXT NOT NULL REFERENCES content (sha256),
    settings TEXT NOT NULL,                            -- JSON, defaults filled in
    bare_units TEXT NOT NULL,                          -- the site's own units
    site_file TEXT,
    site     TEXT REFERENCES content (sha256),
    register_file TEXT,
    register TEXT REFERENCES content (sha256),
    supplier TEXT,                                     -- as given by option
    delivery TEXT,                                     -- as given by option
    refused  TEXT NOT NULL,                            -- JSON: files that could not be read, with the reason
    hash     BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT;

-- A file of an audit.
CREATE TABLE source (
    number INTEGER PRIMARY KEY,
    audit  INTEGER NOT NULL REFERENCES audit (number),
    name   TEXT NOT NULL,
    sha256 TEXT NOT NULL REFERENCES content (sha256),
    kind   TEXT NOT NULL,
    hash   BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT;

-- A delivery: one sheet of a file.
CREATE TABLE delivery (
    number   INTEGER PRIMARY KEY,
    audit    INTEGER NOT NULL REFERENCES audit (number),
    source   INTEGER NOT NULL REFERENCES source (number),
    name     TEXT NOT NULL,
    supplier TEXT,
    body     TEXT NOT NULL,                            -- dockheft.delivery/1
    hash     BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT;

-- A goods line or a package, with its findings, estimate, plan and truck.
CREATE TABLE load (
    number   INTEGER PRIMARY KEY,
    delivery INTEGER NOT NULL REFERENCES delivery (number),
    id       TEXT NOT NULL,
    day      TEXT NOT NULL,
    supplier TEXT,
    item     TEXT,
    po       TEXT,                                     -- order
    truck    TEXT,
    codes    TEXT NOT NULL,                            -- of the findings, a blank before and after each
    flagged  INTEGER NOT NULL CHECK (flagged IN (0, 1)),
    substance TEXT NOT NULL,                           -- hash of what a decision rests on
    description TEXT NOT NULL,
    body     TEXT NOT NULL,                            -- dockheft.line/1 or dockheft.package/1
    shown    TEXT NOT NULL,                            -- JSON: the words of that day's reports
    hash     BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT;

-- What somebody decided about a load.
CREATE TABLE decision (
    number   INTEGER PRIMARY KEY,
    load     INTEGER NOT NULL REFERENCES load (number),
    id       TEXT NOT NULL,                            -- the load's
    decision TEXT NOT NULL,
    plan_kg  REAL,                                     -- planning weight of the whole load from now on; none: not lifted
    before_kg REAL,                                    -- planning weight until then
    evidence TEXT,
    name     TEXT NOT NULL,                            -- as typed
    remark   TEXT,
    dated    TEXT,                                     -- day written beside the decision, where one was
    origin   TEXT NOT NULL,                            -- how it came in
    time     TEXT NOT NULL,
    host     TEXT NOT NULL,
    user     TEXT NOT NULL,
    program  TEXT NOT NULL,
    hash     BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT;

CREATE INDEX load_by_id ON load (id);
CREATE INDEX load_by_delivery ON load (delivery);
CREATE INDEX load_by_supplier ON load (supplier, day);
CREATE INDEX load_by_item ON load (item COLLATE NOCASE, day);
CREATE INDEX load_by_order ON load (po COLLATE NOCASE, day);
-- Holds whatever can be asked for, so that a search by words need not read the whole records.
CREATE INDEX load_by_day ON load (day, supplier, item, po, truck, codes, flagged, id, substance, delivery, description);
CREATE INDEX delivery_by_name ON delivery (name, audit);
CREATE INDEX delivery_by_audit ON delivery (audit);
CREATE INDEX source_by_audit ON source (audit);
CREATE INDEX decision_by_load ON decision (load);
CREATE INDEX decision_by_id ON decision (id);

CREATE TRIGGER content_unchanged BEFORE UPDATE ON content BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER content_kept BEFORE DELETE ON content BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER content_added BEFORE INSERT ON content
WHEN EXISTS (SELECT 1 FROM content WHERE number = NEW.number OR sha256 = NEW.sha256)
BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;

CREATE TRIGGER audit_unchanged BEFORE UPDATE ON audit BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER audit_kept BEFORE DELETE ON audit BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER audit_added BEFORE INSERT ON audit
WHEN EXISTS (SELECT 1 FROM audit WHERE number = NEW.number)
BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;

CREATE TRIGGER source_unchanged BEFORE UPDATE ON source BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER source_kept BEFORE DELETE ON source BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER source_added BEFORE INSERT ON source
WHEN EXISTS (SELECT 1 FROM source WHERE number = NEW.number)
BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;

CREATE TRIGGER delivery_unchanged BEFORE UPDATE ON delivery BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER delivery_kept BEFORE DELETE ON delivery BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER delivery_added BEFORE INSERT ON delivery
WHEN EXISTS (SELECT 1 FROM delivery WHERE number = NEW.number)
BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;

CREATE TRIGGER load_unchanged BEFORE UPDATE ON load BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER load_kept BEFORE DELETE ON load BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER load_added BEFORE INSERT ON load
WHEN EXISTS (SELECT 1 FROM load WHERE number = NEW.number)
BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;

CREATE TRIGGER decision_unchanged BEFORE UPDATE ON decision BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER decision_kept BEFORE DELETE ON decision BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER decision_added BEFORE INSERT ON decision
WHEN EXISTS (SELECT 1 FROM decision WHERE number = NEW.number)
BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
