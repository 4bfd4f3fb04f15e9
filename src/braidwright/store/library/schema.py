"""schema: the tables of the library and the steps from an older form of them to the newest.

Salvage tells the tables apart by their number of columns: contents 4, designs 5, states 12. Those of
a state follow each other as `rows.COLUMNS` has them. Opening compares these texts with those in the file, so a
step to a newer version makes its tables anew.
"""

import sqlite3
from collections.abc import Callable, Mapping
from typing import Final

APPLICATION: Final = 0x42726477  # "Brdw", in the head of the file
VERSION: Final = 1
PAGE_BYTES: Final = 4096

TABLES: Final = (
    "CREATE TABLE contents (id INTEGER PRIMARY KEY AUTOINCREMENT, sum TEXT NOT NULL UNIQUE, size INTEGER NOT NULL, "
    "packed BLOB NOT NULL)",
    "CREATE TABLE states (id INTEGER PRIMARY KEY AUTOINCREMENT, "
    "design INTEGER NOT NULL REFERENCES designs (id) DEFERRABLE INITIALLY DEFERRED, "
    "name TEXT NOT NULL, parent TEXT, number INTEGER NOT NULL, title TEXT NOT NULL, facts TEXT NOT NULL, "
    "doing TEXT NOT NULL, at TEXT NOT NULL, brought_back TEXT, "
    "content_sum TEXT NOT NULL REFERENCES contents (sum), size INTEGER NOT NULL, "
    "UNIQUE (design, number), UNIQUE (design, name))",
    "CREATE TABLE designs (id INTEGER PRIMARY KEY AUTOINCREMENT, "
    "newest INTEGER NOT NULL REFERENCES states (id) DEFERRABLE INITIALLY DEFERRED, "
    "begun TEXT NOT NULL, removed TEXT, searched TEXT NOT NULL)",
    "CREATE INDEX states_by_content ON states (content_sum)",
    "CREATE INDEX states_by_name ON states (name)",
    "CREATE INDEX designs_by_newest ON designs (newest)",
)

Step = Callable[[sqlite3.Connection], None]

# STEPS[n] turns tables of version n into those of version n + 1, inside the transaction it is called in. Version 1 is
# the first, so there is none yet.
STEPS: Final[Mapping[int, Step]] = {}


def create_tables(db: sqlite3.Connection) -> None:
    """Make the tables in an empty file, in one transaction."""
    db.execute(f"PRAGMA page_size = {PAGE_BYTES}")
    db.execute("BEGIN IMMEDIATE")
    db.execute(f"PRAGMA application_id = {APPLICATION}")
    db.execute(f"PRAGMA user_version = {VERSION}")
    for table in TABLES:
        db.execute(table)
    db.execute("COMMIT")


def version_of(db: sqlite3.Connection) -> int:
    """The version of the tables in a file."""
    return int(db.execute("PRAGMA user_version").fetchone()[0])


def migrate(db: sqlite3.Connection, steps: Mapping[int, Step] = STEPS, newest: int = VERSION) -> bool:
    """Bring older tables to the newest version: all the way, in one transaction, or not at all.

    Returns:
        Whether there was anything to do.
    """
    if version_of(db) >= newest:
        return False
    db.execute("PRAGMA foreign_keys = OFF")  # a step may make a table anew; it cannot be set inside a transaction
    db.execute("BEGIN IMMEDIATE")
    try:
        for version in range(version_of(db), newest):
            steps[version](db)
        db.execute(f"PRAGMA user_version = {newest}")
        db.execute("COMMIT")
    finally:
        if db.in_transaction:
            db.execute("ROLLBACK")
        db.execute("PRAGMA foreign_keys = ON")
    return True
