"""The tables of the book, as a row of migrations: each makes the next version of the schema out of the one before it.

A migration that has been released is never changed; what is new is a new one at the end. The tests keep a book of every version.
Dates are ISO text. Weights are grams and volumes millilitres where no unit stands beside them; strengths are percent numbers.
`turn` is the turn of a conversation by which a thing was kept, so that forgetting the turn takes back the thing.
"""

from __future__ import annotations

import sqlite3

APPLICATION_ID = 0x67616C70  # "galp"

FIRST = """
CREATE TABLE conversations (
    id INTEGER PRIMARY KEY,
    begun TEXT NOT NULL,
    opening TEXT NOT NULL DEFAULT '{}'
) STRICT;
CREATE TABLE turns (
    id INTEGER PRIMARY KEY,
    conversation INTEGER NOT NULL REFERENCES conversations (id) ON DELETE CASCADE,
    n INTEGER NOT NULL,
    said_on TEXT NOT NULL,
    heard TEXT NOT NULL,
    status TEXT NOT NULL,
    delta TEXT NOT NULL,
    moves TEXT NOT NULL DEFAULT '',
    UNIQUE (conversation, n)
) STRICT;
CREATE TABLE gatherings (
    id INTEGER PRIMARY KEY,
    plant TEXT NOT NULL,
    latin TEXT NOT NULL DEFAULT '',
    part TEXT NOT NULL DEFAULT '',
    state TEXT NOT NULL DEFAULT '',
    place TEXT NOT NULL DEFAULT '',
    gathered_on TEXT NOT NULL,
    weight REAL,
    stand_plants REAL,
    plants_taken REAL,
    stand_share REAL,
    permission TEXT NOT NULL DEFAULT '',
    note TEXT NOT NULL DEFAULT '',
    turn INTEGER REFERENCES turns (id) ON DELETE SET NULL
) STRICT;
CREATE INDEX gatherings_by_plant ON gatherings (plant, gathered_on);
CREATE INDEX gatherings_by_place ON gatherings (place, gathered_on);
CREATE TABLE batches (
    id INTEGER PRIMARY KEY,
    lot TEXT NOT NULL COLLATE NOCASE UNIQUE,
    name TEXT NOT NULL DEFAULT '',
    code TEXT NOT NULL DEFAULT '',
    plant TEXT NOT NULL DEFAULT '',
    latin TEXT NOT NULL DEFAULT '',
    part TEXT NOT NULL DEFAULT '',
    state TEXT NOT NULL DEFAULT '',
    preparation TEXT NOT NULL,
    method TEXT NOT NULL DEFAULT '',
    started TEXT NOT NULL,
    shake_until TEXT,
    press_on TEXT,
    ready_on TEXT,
    pressed_on TEXT,
    best_before TEXT,
    expected REAL,
    actual REAL,
    unit TEXT NOT NULL DEFAULT 'mL',
    record TEXT NOT NULL,
    turn INTEGER REFERENCES turns (id) ON DELETE SET NULL
) STRICT;
CREATE INDEX batches_to_press ON batches (press_on) WHERE pressed_on IS NULL AND press_on IS NOT NULL;
CREATE INDEX batches_by_date ON batches (best_before) WHERE best_before IS NOT NULL;
CREATE INDEX batches_by_plant ON batches (plant, started);
CREATE TABLE items (
    id INTEGER PRIMARY KEY,
    kind TEXT NOT NULL,
    name TEXT NOT NULL COLLATE NOCASE,
    strength REAL NOT NULL DEFAULT 0,
    unit TEXT NOT NULL,
    UNIQUE (kind, name, strength, unit)
) STRICT;
CREATE TABLE components (
    id INTEGER PRIMARY KEY,
    batch INTEGER NOT NULL REFERENCES batches (id) ON DELETE CASCADE,
    place INTEGER NOT NULL,
    what TEXT NOT NULL,
    amount REAL,
    unit TEXT NOT NULL,
    lot TEXT NOT NULL DEFAULT '' COLLATE NOCASE,
    source TEXT NOT NULL DEFAULT '',
    gathering INTEGER REFERENCES gatherings (id) ON DELETE SET NULL,
    item INTEGER REFERENCES items (id) ON DELETE SET NULL,
    UNIQUE (batch, place)
) STRICT;
CREATE INDEX components_by_gathering ON components (gathering) WHERE gathering IS NOT NULL;
CREATE INDEX components_by_lot ON components (lot);
CREATE TABLE movements (
    id INTEGER PRIMARY KEY,
    item INTEGER NOT NULL REFERENCES items (id) ON DELETE CASCADE,
    moved_on TEXT NOT NULL,
    amount REAL NOT NULL,
    batch INTEGER REFERENCES batches (id) ON DELETE CASCADE,
    lot TEXT NOT NULL DEFAULT '',
    price REAL,
    note TEXT NOT NULL DEFAULT '',
    turn INTEGER REFERENCES turns (id) ON DELETE SET NULL
) STRICT;
CREATE INDEX movements_by_item ON movements (item);
CREATE INDEX movements_by_batch ON movements (batch) WHERE batch IS NOT NULL;
CREATE TABLE bottlings (
    id INTEGER PRIMARY KEY,
    batch INTEGER NOT NULL REFERENCES batches (id) ON DELETE CASCADE,
    bottled_on TEXT NOT NULL,
    bottles INTEGER NOT NULL,
    size REAL NOT NULL,
    turn INTEGER REFERENCES turns (id) ON DELETE SET NULL
) STRICT;
CREATE INDEX bottlings_by_batch ON bottlings (batch);
CREATE TABLE measured (
    id INTEGER PRIMARY KEY,
    quantity TEXT NOT NULL,
    plant TEXT NOT NULL DEFAULT '',
    part TEXT NOT NULL DEFAULT '',
    method TEXT NOT NULL DEFAULT '',
    value REAL NOT NULL,
    measured_on TEXT NOT NULL,
    batch INTEGER REFERENCES batches (id) ON DELETE CASCADE,
    turn INTEGER REFERENCES turns (id) ON DELETE SET NULL
) STRICT;
CREATE INDEX measured_by_quantity ON measured (quantity, plant, part);
"""

# What a batch record asks for beside figures (checks, cleaning, initials), and whatever else a person owns (instruments, habits).
SECOND = """
CREATE TABLE checks (
    id INTEGER PRIMARY KEY,
    batch INTEGER NOT NULL REFERENCES batches (id) ON DELETE CASCADE,
    field TEXT NOT NULL,
    made_on TEXT NOT NULL,
    words TEXT NOT NULL,
    turn INTEGER REFERENCES turns (id) ON DELETE SET NULL
) STRICT;
CREATE INDEX checks_by_batch ON checks (batch);
CREATE TABLE belongings (
    id INTEGER PRIMARY KEY,
    kind TEXT NOT NULL,
    name TEXT NOT NULL,
    data TEXT NOT NULL,
    turn INTEGER REFERENCES turns (id) ON DELETE SET NULL,
    UNIQUE (kind, name)
) STRICT;
"""

# Forgetting a turn looks for what it kept; without these each look is a walk through a whole table.
THIRD = "\n".join(
    f"CREATE INDEX {table}_by_turn ON {table} (turn) WHERE turn IS NOT NULL;"
    for table in ("gatherings", "batches", "movements", "bottlings", "measured", "checks", "belongings")
)

MIGRATIONS = (FIRST, SECOND, THIRD)
VERSION = len(MIGRATIONS)

# In the order in which they can be written so that every row finds what it points at.
TABLES = ("conversations", "turns", "gatherings", "batches", "items", "components", "movements", "bottlings", "measured", "checks", "belongings")


def version_of(connection: sqlite3.Connection) -> int:
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def migrate(connection: sqlite3.Connection, upto: int = VERSION) -> None:
    """Bring an open book to a version, one migration after the other; the caller holds the transaction."""
    for number in range(version_of(connection), upto):
        for statement in MIGRATIONS[number].split(";\n"):
            if statement.strip():
                connection.execute(statement)
        connection.execute(f"PRAGMA user_version = {number + 1}")
    connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")


def shape(connection: sqlite3.Connection) -> list[tuple[str, str, str]]:
    """Everything the file declares: kind, name and text, in order; SQLite's own left out."""
    rows = connection.execute("SELECT type, name, coalesce(sql, '') FROM sqlite_schema WHERE name NOT LIKE 'sqlite\\_%' ESCAPE '\\' ORDER BY type, name")
    return [(kind, name, " ".join(text.split())) for kind, name, text in rows]
