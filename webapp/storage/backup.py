"""One file that holds everything, made while the shop is open, and its way back. Both are checked first."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import UTC, datetime
from pathlib import Path

from sqlalchemy.engine import make_url

from webapp.errors import BadInput
from webapp.storage import migrating

Counts = dict[str, int]

#: Added to the revision of a restored shop, so that no phone's copy of a page made since is taken for a current one.
REVISION_JUMP = 1_000_000


def backup(url: str, target: Path) -> Counts:
    """Write the whole database into the new file `target`; returns the rows of each table. Readers and writers go on
    meanwhile. Raises BadInput when `target` exists or the copy is not the same as what was copied."""
    source = database_file(url)
    if not source.is_file():
        raise BadInput(f"There is no database at {source} yet.")
    if target.exists():
        raise BadInput(f"{target} exists already. Choose a name that is free: a backup never replaces another.")
    with _part(target) as part:
        with closing(_open(source)) as live:
            live.execute("BEGIN")  # one moment for the counts and for the copy
            wanted = _counts(live)
            _copy(live, part)
        found = check(part)
        if found != wanted:
            raise BadInput(f"The copy is not complete ({_difference(wanted, found)}). Nothing was kept; try again.")
    return found


def restore(source: Path, url: str) -> tuple[Counts, Path | None]:
    """Put a backup in the place of the database; returns the rows of each table and where the database before was put.

    The shop must not be running. Older backups are brought to the newest shape. Everybody signs in again. Raises
    BadInput, with nothing changed, when the file is not a whole backup or the shop is running.
    """
    place = database_file(url)
    wanted = check(source)
    place.parent.mkdir(parents=True, exist_ok=True)
    with _part(place) as part:
        with closing(_open(source, read_only=True)) as kept:
            _copy(kept, part)
        if check(part) != wanted:
            raise BadInput("The backup could not be read whole. Nothing was changed.")
        migrating.upgrade(f"sqlite:///{part}")
        with closing(_open(part)) as fresh:
            fresh.execute("DELETE FROM staff_session")
            fresh.execute("UPDATE clock SET revision = revision + ?", (REVISION_JUMP,))
            _one_file(fresh)
        before = _set_aside(place)
    return wanted, before


def check(path: Path) -> Counts:
    """The rows of each table of a whole, sound database of this program. Raises BadInput for anything else."""
    try:
        with closing(_open(path, read_only=True)) as connection:
            sound = connection.execute("PRAGMA integrity_check").fetchone()[0]
            if sound != "ok":
                raise BadInput(f"{path} is damaged: {sound}.")
            loose = connection.execute("PRAGMA foreign_key_check").fetchone()
            if loose is not None:
                raise BadInput(f"{path} is damaged: a row of {loose[0]} points to a row of {loose[2]} that is missing.")
            revision = connection.execute("SELECT version_num FROM alembic_version").fetchone()
            if revision is None or revision[0] not in migrating.revisions():
                raise BadInput(f"{path} was made by a newer version of this program. Install that version first.")
            return _counts(connection)
    except sqlite3.Error as error:
        raise BadInput(f"{path} is not a backup of this program ({error}).") from error


def database_file(url: str) -> Path:
    """The file of a SQLite URL. Raises BadInput for other databases, which bring backup tools of their own."""
    parsed = make_url(url)
    if parsed.get_backend_name() != "sqlite" or not parsed.database or parsed.database == ":memory:":
        raise BadInput("Only a SQLite file is backed up from here. Use the backup tool of the database that you chose.")
    return Path(parsed.database).resolve()


def _open(path: Path, read_only: bool = False) -> sqlite3.Connection:
    mode = "ro" if read_only else "rw"
    return sqlite3.connect(f"{path.resolve().as_uri()}?mode={mode}", uri=True, isolation_level=None, timeout=10)


def _copy(live: sqlite3.Connection, part: Path) -> None:
    with closing(sqlite3.connect(part, isolation_level=None)) as copy:
        live.backup(copy)
        _one_file(copy)


def _one_file(connection: sqlite3.Connection) -> None:
    """Leave write-ahead mode, so that everything is in the one file."""
    connection.execute("PRAGMA journal_mode=DELETE")


def _counts(connection: sqlite3.Connection) -> Counts:
    tables = connection.execute(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\' ORDER BY name"
    ).fetchall()
    return {name: connection.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0] for (name,) in tables}


def _difference(wanted: Counts, found: Counts) -> str:
    names = [name for name in {**wanted, **found} if wanted.get(name) != found.get(name)]
    return ", ".join(f"{name}: {found.get(name, 0)} of {wanted.get(name, 0)} rows" for name in names)


@contextmanager
def _part(target: Path) -> Iterator[Path]:
    """A file beside `target`, readable by its owner only, that takes its place when all went well, else disappears."""
    part = target.with_name(f"{target.name}.part")
    try:
        part.unlink(missing_ok=True)
        os.close(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600))
        yield part
        with part.open("rb+") as file:
            os.fsync(file.fileno())
        os.replace(part, target)
    except OSError as error:
        raise BadInput(f"{target} cannot be written: {error.strerror or error}.") from error
    finally:
        for left in (part, *(Path(f"{part}{end}") for end in ("-wal", "-shm", "-journal"))):
            left.unlink(missing_ok=True)


def _set_aside(place: Path) -> Path | None:
    """Move the present database out of the way. Leaving write-ahead mode only works when nobody else has it open."""
    if not place.exists():
        return None
    try:
        with closing(_open(place)) as present:
            present.execute("PRAGMA busy_timeout=500")
            _one_file(present)
    except sqlite3.DatabaseError as error:
        if "locked" in str(error):
            raise BadInput("The shop is running. Stop it first, then restore.") from error
        # Anything else: it is damaged. It is kept as it is, and makes room for the backup.
    stamp = datetime.now(UTC).strftime("%Y%m%d-%H%M%S")
    aside = place.with_name(f"{place.stem}.before-restore-{stamp}{place.suffix}")
    os.replace(place, aside)
    for end in ("-wal", "-shm"):
        Path(f"{place}{end}").unlink(missing_ok=True)
    return aside
