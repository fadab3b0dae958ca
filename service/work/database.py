"""The one file that all workers share: SQLite, so that whichever of them is asked knows what the others do.

It lives as long as the service, so nothing is forced to the disk, and what is deleted is overwritten. Only
`Prefer: respond-async` needs it: a disk that is full or cannot be written stops nothing else.
"""

import os
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from service.work.refusals import work_not_kept

#: Seconds that one worker waits for another that writes.
_PATIENCE_S = 2.0

#: Its owner alone may read it: it holds answers.
_MODE = 0o600

_SETTINGS = (
    "PRAGMA journal_mode = WAL",  # who reads does not wait for who writes
    "PRAGMA synchronous = OFF",
    "PRAGMA secure_delete = ON",
    "PRAGMA temp_store = MEMORY",
)


class Database:
    """Opened when it is first needed, and anew after a fault of the disk. Safe from any thread.

    folder: that the file is in; None where there is none. schema: what makes its table, where there is none yet.
    """

    def __init__(self, folder: Path | None, schema: str) -> None:
        self._folder, self._schema = folder, schema
        self._lock = threading.Lock()
        self._connection: sqlite3.Connection | None = None

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """What is so at the moment. Raises WorkRefused when it cannot be read."""
        with self._lock, self._held() as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """All that is done inside, or nothing of it. Raises WorkRefused when it cannot be written."""
        with self._lock, self._held() as connection:
            connection.execute("BEGIN IMMEDIATE")
            try:
                yield connection
            except BaseException:
                with suppress(sqlite3.Error):  # a disk that is full has rolled it back by itself
                    connection.execute("ROLLBACK")
                raise
            connection.execute("COMMIT")

    def close(self) -> None:
        """Until it is needed again."""
        with self._lock:
            self._let_go()

    @contextmanager
    def _held(self) -> Iterator[sqlite3.Connection]:
        try:
            if self._connection is None:
                self._connection = self._opened()
            yield self._connection
        except (sqlite3.Error, OSError):
            self._let_go()
            raise work_not_kept() from None

    def _opened(self) -> sqlite3.Connection:
        if self._folder is None:
            raise work_not_kept()
        file = self._folder / "work.sqlite"
        os.close(os.open(file, os.O_RDWR | os.O_CREAT, _MODE))
        connection = sqlite3.connect(file, timeout=_PATIENCE_S, isolation_level=None, check_same_thread=False)
        try:
            for setting in _SETTINGS:
                connection.execute(setting)
            connection.execute(self._schema)
        except sqlite3.Error:
            connection.close()
            raise
        return connection

    def _let_go(self) -> None:
        if self._connection is not None:
            with suppress(sqlite3.Error):
                self._connection.close()
            self._connection = None
