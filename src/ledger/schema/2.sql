-- What an audit knew from earlier records: decisions on its loads, weighings of the same goods.
CREATE TABLE history (
    number INTEGER PRIMARY KEY,
    audit  INTEGER NOT NULL REFERENCES audit (number),
    sha256 TEXT NOT NULL REFERENCES content (sha256),  -- JSON
    hash   BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT;

CREATE INDEX history_by_audit ON history (audit);

CREATE TRIGGER history_unchanged BEFORE UPDATE ON history BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER history_kept BEFORE DELETE ON history BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER history_added BEFORE INSERT ON history
WHEN EXISTS (SELECT 1 FROM history WHERE number = NEW.number)
BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
