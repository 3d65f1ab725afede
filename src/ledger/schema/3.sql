-- What statistics ask of each load, taken out of its record so that a million are read in a second. No records of the chain:
-- whatever stands here is worked out anew from the records by `ledger check`, and must be the same.

-- Words that figures have, each once.
CREATE TABLE word (
    code INTEGER PRIMARY KEY,
    text TEXT NOT NULL UNIQUE
) STRICT;

-- The figures of a load: names are codes of words, weights are of the whole load.
CREATE TABLE figure (
    load     INTEGER PRIMARY KEY REFERENCES load (number),
    delivery INTEGER NOT NULL,
    id       TEXT NOT NULL,
    supplier INTEGER,
    goods    INTEGER,                                  -- kind of goods
    material INTEGER,
    evidence INTEGER,                                  -- of the estimate
    verdict  INTEGER,
    severity INTEGER,                                  -- the worst of its findings, or "none"
    codes    INTEGER,                                  -- of its findings, a blank between
    cause    INTEGER,                                  -- the likeliest
    truck    INTEGER,
    declared_kg REAL,
    low_kg   REAL,
    likely_kg REAL,                                    -- of the goods
    expected_kg REAL,                                  -- of the kind declared: gross has the packaging on top
    high_kg  REAL,
    plan_kg  REAL,
    overload_kg REAL                                   -- of the truck that the declared weight alone would have picked
) STRICT;

CREATE TRIGGER word_unchanged BEFORE UPDATE ON word BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER word_kept BEFORE DELETE ON word BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER word_added BEFORE INSERT ON word
WHEN EXISTS (SELECT 1 FROM word WHERE code = NEW.code OR text = NEW.text)
BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;

CREATE TRIGGER figure_unchanged BEFORE UPDATE ON figure BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER figure_kept BEFORE DELETE ON figure BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
CREATE TRIGGER figure_added BEFORE INSERT ON figure
WHEN EXISTS (SELECT 1 FROM figure WHERE load = NEW.load)
BEGIN SELECT RAISE(ABORT, 'the ledger is only added to'); END;
