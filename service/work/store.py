"""Work that any worker may be asked about: taking it on, telling how far it is, its end, and its expiry.

Times are of the monotonic clock, which is one for all processes of a machine. Every operation may raise WorkRefused
with `work_not_kept`, when the disk does not take or give what it should.
"""

import sqlite3
import time
from collections.abc import Callable, Mapping
from http import HTTPStatus
from pathlib import Path

from service.schemas.work import WorkAnswer
from service.settings import Settings
from service.work.database import Database
from service.work.kept import Kept, Kind, State, as_json, packed, told
from service.work.refusals import too_much_work, unknown_work, work_gone, work_lost
from service.work.sentences import ADD, BEGIN, CANCEL, DROP, DUE, END, FIND, SCHEMA, SPACE, TELL

#: Seconds without a sign of life after which whoever works on something is taken to be dead; it gives four a second.
LAPSED_S = 5.0

#: Ids that are known to be gone, for each piece of work that may be kept.
_REMEMBERED = 4


class Store:
    """All work of the service, as one of its workers sees it. Safe from any thread.

    folder: of this service alone; None where there is none.
    """

    def __init__(self, folder: Path | None, settings: Settings, clock: Callable[[], float] = time.monotonic) -> None:
        self._database = Database(folder, SCHEMA)
        self._settings, self._clock = settings, clock

    def add(self, work_id: str, owner: str, kind: Kind) -> None:
        """Take something on. Raises WorkRefused when as much is kept as may be."""
        now = self._clock()
        with self._database.writing() as connection:
            self._settle(connection)
            count, size, frees_s = connection.execute(SPACE).fetchone()
            if count >= self._settings.work_limit or size >= self._settings.work_limit_bytes:
                raise too_much_work(0.0 if frees_s is None else frees_s - now)
            connection.execute(ADD, {"id": work_id, "owner": owner, "kind": kind, "now": now})

    def begin(self, work_id: str) -> None:
        """Somebody works on it."""
        self._write(BEGIN, id=work_id)

    def tell(self, progress: Mapping[str, str | None]) -> frozenset[str]:
        """A sign of life of each work, with its progress where that is new; those that nobody wants any more."""
        now = self._clock()
        with self._database.writing() as connection:
            wanted = {
                work_id: connection.execute(TELL, {"id": work_id, "now": now, "progress": said}).rowcount
                for work_id, said in progress.items()
            }
        return frozenset(work_id for work_id, rows in wanted.items() if not rows)

    def end(self, work_id: str, status: int, content: bytes) -> None:
        """It ended with an answer, or with the problem document and the status of a refusal or a fault."""
        state = State.DONE if status == HTTPStatus.OK else State.FAILED
        self._write(END, id=work_id, state=state.value, status=status, content=packed(content))

    def cancel(self, work_id: str, owner: str) -> None:
        """Nobody wants it any more: whoever works on it stops, and its answer is gone. Raises WorkRefused as `find`."""
        self.find(work_id, owner)
        self._write(CANCEL, id=work_id)

    def drop(self, work_id: str) -> None:
        """Forget it: nobody was told its id."""
        self._write(DROP, id=work_id)

    def find(self, work_id: str, owner: str) -> Kept:
        """It, as it is now. Raises WorkRefused for what is unknown, somebody else's, or gone."""
        kept = self.seen(work_id, owner)
        if kept.state is State.CANCELLED:
            raise work_gone()
        return kept

    def seen(self, work_id: str, owner: str) -> Kept:
        """The same for who has followed it until now, and may see that it was cancelled."""
        with self._database.reading() as connection:
            row = connection.execute(FIND, {"id": work_id, "owner": owner}).fetchone()
        if row is None:
            raise unknown_work()
        kept, now = Kept.of(row), self._clock()
        if kept.state is State.EXPIRED or (kept.expires_s is not None and kept.expires_s <= now):
            raise work_gone()
        if kept.state.is_active and kept.alive_s < now - LAPSED_S:
            return kept.failed(now, self._settings.work_kept_s, work_lost().document)
        return kept

    def told(self, kept: Kept) -> WorkAnswer:
        """What is said of it now."""
        return told(kept, self._clock())

    def settle(self) -> None:
        """What is due: work of the dead fails, answers that were kept long enough go, and later their ids."""
        with self._database.writing() as connection:
            self._settle(connection)

    def close(self) -> None:
        """Until it is needed again."""
        self._database.close()

    def _settle(self, connection: sqlite3.Connection) -> None:
        lost = work_lost().document
        values = {
            "now": self._clock(),
            "kept": self._settings.work_kept_s,
            "lapsed": LAPSED_S,
            "status": lost.status,
            "content": packed(as_json(lost)),
            "remembered": _REMEMBERED * self._settings.work_limit,
        }
        for sentence in DUE:
            connection.execute(sentence, values)

    def _write(self, sentence: str, **values: str | int | bytes) -> None:
        times = {"now": self._clock(), "kept": self._settings.work_kept_s}
        with self._database.writing() as connection:
            connection.execute(sentence, {**times, **values})
