-- Never edited: a later schema is a later file.
CREATE TABLE book (
    id INTEGER NOT NULL PRIMARY KEY CHECK (id = 1),
    holding BLOB NOT NULL CHECK (length(holding) = 32)
) STRICT;

-- The envelope is the record; the other columns repeat what is looked for.
CREATE TABLE entry (
    device BLOB NOT NULL CHECK (length(device) = 16),
    seq INTEGER NOT NULL CHECK (seq > 0),
    hlc INTEGER NOT NULL CHECK (hlc >= 0),
    kind INTEGER NOT NULL CHECK (kind BETWEEN 0 AND 65535),
    bytes BLOB NOT NULL CHECK (length(bytes) BETWEEN 1 AND 65536),
    PRIMARY KEY (device, seq)
) STRICT, WITHOUT ROWID;
CREATE INDEX entry_order ON entry (hlc, device, seq);

-- Ends of chains, signed. One is added with every transaction.
CREATE TABLE head (
    device BLOB NOT NULL CHECK (length(device) = 16),
    seq INTEGER NOT NULL CHECK (seq > 0),
    hash BLOB NOT NULL CHECK (length(hash) = 32),
    checkpoint BLOB CHECK (checkpoint IS NULL OR length(checkpoint) = 32),
    signature BLOB NOT NULL CHECK (length(signature) = 64),
    PRIMARY KEY (device, seq)
) STRICT, WITHOUT ROWID;

-- Texts can be erased, never changed.
CREATE TABLE text (
    hash BLOB NOT NULL PRIMARY KEY CHECK (length(hash) = 32),
    salt BLOB NOT NULL CHECK (length(salt) = 16),
    body TEXT NOT NULL CHECK (length(body) <= 262144)
) STRICT, WITHOUT ROWID;

-- When entries of other devices came whose clock ran further ahead than ours is moved.
CREATE TABLE ahead (
    device BLOB NOT NULL CHECK (length(device) = 16),
    seq INTEGER NOT NULL CHECK (seq > 0),
    arrived_ms INTEGER NOT NULL,
    PRIMARY KEY (device, seq)
) STRICT, WITHOUT ROWID;

-- From here on everything can be dropped and rebuilt from the entries.
CREATE TABLE mention (
    named_device BLOB NOT NULL CHECK (length(named_device) = 16),
    named_seq INTEGER NOT NULL CHECK (named_seq > 0),
    kind INTEGER NOT NULL,
    device BLOB NOT NULL CHECK (length(device) = 16),
    seq INTEGER NOT NULL CHECK (seq > 0),
    PRIMARY KEY (named_device, named_seq, kind, device, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE projection (
    sort INTEGER NOT NULL CHECK (sort > 0),
    device BLOB NOT NULL CHECK (length(device) = 16),
    seq INTEGER NOT NULL CHECK (seq > 0),
    bytes BLOB NOT NULL,
    PRIMARY KEY (sort, device, seq)
) STRICT, WITHOUT ROWID;

-- The ends of the chains that the projections were built from.
CREATE TABLE built (
    device BLOB NOT NULL PRIMARY KEY CHECK (length(device) = 16),
    seq INTEGER NOT NULL CHECK (seq > 0),
    hash BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT, WITHOUT ROWID;
-- Which version of the folds built them.
CREATE TABLE folds (id INTEGER NOT NULL PRIMARY KEY CHECK (id = 1), version INTEGER NOT NULL) STRICT;

CREATE TRIGGER entry_stays BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END;
CREATE TRIGGER entry_kept BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END;
-- INSERT OR REPLACE would delete without asking the trigger above.
CREATE TRIGGER entry_once BEFORE INSERT ON entry
WHEN EXISTS (SELECT 1 FROM entry WHERE device = NEW.device AND seq = NEW.seq)
BEGIN SELECT RAISE(ABORT, 'entries are never replaced'); END;
CREATE TRIGGER head_stays BEFORE UPDATE ON head BEGIN SELECT RAISE(ABORT, 'heads are never changed'); END;
CREATE TRIGGER head_kept BEFORE DELETE ON head BEGIN SELECT RAISE(ABORT, 'heads are never deleted'); END;
CREATE TRIGGER head_once BEFORE INSERT ON head
WHEN EXISTS (SELECT 1 FROM head WHERE device = NEW.device AND seq = NEW.seq)
BEGIN SELECT RAISE(ABORT, 'heads are never replaced'); END;
CREATE TRIGGER book_stays BEFORE UPDATE ON book BEGIN SELECT RAISE(ABORT, 'a book belongs to one holding'); END;
CREATE TRIGGER book_kept BEFORE DELETE ON book BEGIN SELECT RAISE(ABORT, 'a book belongs to one holding'); END;
CREATE TRIGGER text_stays BEFORE UPDATE ON text BEGIN SELECT RAISE(ABORT, 'texts are never changed'); END;
