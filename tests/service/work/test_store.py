"""What is kept of work, for how long, and for whom; by a clock that the tests set."""

import os
import stat
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from service.settings import Settings
from service.work.kept import State
from service.work.refusals import WorkRefused, work_lost
from service.work.store import LAPSED_S, Store

KEPT_S = 600.0

ANSWER = b'{"outcome": "plan"}'


class Clock:
    now = 1000.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def store(tmp_path: Path, clock: Clock) -> Iterator[Store]:
    store = Store(tmp_path, Settings(work_limit=3), clock)
    yield store
    store.close()


def refused(store: Store, work_id: str, owner: str = "") -> str:
    with pytest.raises(WorkRefused) as refusal:
        store.find(work_id, owner)
    return refusal.value.document.problems[0].code


def test_work_is_queued_runs_and_is_done(store: Store, clock: Clock) -> None:
    store.add("a", "", "plan")
    assert store.find("a", "").state is State.QUEUED
    store.begin("a")
    clock.now += 2
    assert store.tell({"a": None}) == frozenset()
    told = store.told(store.find("a", ""))
    assert (told.state, told.elapsed_s, told.answer, told.kept_s) == ("running", 2, None, None)
    store.end("a", 200, ANSWER)
    clock.now += 5
    kept = store.find("a", "")
    told = store.told(kept)
    assert (told.state, told.elapsed_s, told.answer, told.kept_s) == ("done", 2, "/v1/work/a/answer", KEPT_S - 5)
    assert kept.document == ANSWER


def test_every_change_is_a_new_version_and_a_sign_of_life_is_none(store: Store) -> None:
    versions = []

    def note() -> None:
        versions.append(store.find("a", "").version)

    store.add("a", "", "plan")
    note()
    store.begin("a")
    note()
    store.tell({"a": None})
    note()
    store.tell({"a": '{"level": "x", "value": null, "bound": null, "gap": null, "best": null}'})
    note()
    store.end("a", 200, ANSWER)
    note()
    assert versions == [0, 1, 1, 2, 3]


def test_an_answer_goes_when_it_was_kept_long_enough_and_its_id_later(store: Store, clock: Clock) -> None:
    store.add("a", "", "plan")
    store.end("a", 200, ANSWER)
    clock.now += KEPT_S - 1
    assert store.find("a", "").document == ANSWER
    clock.now += 1
    assert refused(store, "a") == "work_gone", "whether or not anybody has tidied up"
    store.settle()
    assert refused(store, "a") == "work_gone"
    clock.now += KEPT_S
    store.settle()
    assert refused(store, "a") == "unknown_work"


def test_what_is_deleted_or_expired_is_not_in_the_file(store: Store, tmp_path: Path, clock: Clock) -> None:
    for name in ("a", "b"):
        store.add(name, "", "plan")
        store.tell({name: '"Zwieback"'})
        store.end(name, 200, ANSWER)
    store.cancel("a", "")
    clock.now += KEPT_S
    store.settle()
    store.close()
    assert b"Zwieback" not in (tmp_path / "work.sqlite").read_bytes()


def test_what_is_cancelled_is_gone_and_whoever_works_on_it_reads_so(store: Store) -> None:
    store.add("a", "", "plan")
    store.add("b", "", "plan")
    store.cancel("a", "")
    assert refused(store, "a") == "work_gone"
    assert store.seen("a", "").state is State.CANCELLED
    assert store.tell({"a": None, "b": None}) == {"a"}
    store.end("a", 200, ANSWER)
    assert store.seen("a", "").content is None, "it came too late"


def test_what_was_dropped_was_never_there(store: Store) -> None:
    store.add("a", "", "plan")
    store.drop("a")
    assert refused(store, "a") == "unknown_work"
    assert store.tell({"a": None}) == {"a"}


def test_work_of_the_dead_has_failed(store: Store, clock: Clock) -> None:
    store.add("a", "", "plan")
    store.add("b", "", "plan")
    clock.now += LAPSED_S
    store.tell({"b": None})
    clock.now += 0.1
    told = store.told(store.find("a", ""))
    assert told.state == "failed"
    assert told.problem == work_lost().document
    assert store.find("b", "").state is State.QUEUED
    version = store.find("a", "").version
    store.settle()
    assert store.find("a", "").version == version, "nobody sees it twice"
    store.end("a", 200, ANSWER)
    assert store.find("a", "").state is State.FAILED, "one that was dead does not come back"


def test_nobody_sees_what_another_asked_for(store: Store) -> None:
    store.add("a", "anna", "plan")
    assert store.find("a", "anna").state is State.QUEUED
    assert refused(store, "a", "bert") == refused(store, "a") == "unknown_work"
    with pytest.raises(WorkRefused):
        store.cancel("a", "bert")
    assert store.find("a", "anna").state is State.QUEUED


def test_more_than_may_be_kept_is_refused_until_there_is_room(store: Store, clock: Clock) -> None:
    for name in "abc":
        store.add(name, "", "plan")
        store.end(name, 200, ANSWER)
        clock.now += 10
    with pytest.raises(WorkRefused) as refusal:
        store.add("d", "", "plan")
    assert refusal.value.document.type == "/problems/too_much_work"
    assert refusal.value.headers == {"Retry-After": str(round(KEPT_S - 30))}
    store.cancel("b", "")
    store.add("d", "", "plan")
    clock.now += KEPT_S - 30
    store.add("e", "", "plan")


def test_answers_that_are_too_large_together_are_room_taken(tmp_path: Path) -> None:
    store = Store(tmp_path, Settings(work_limit_bytes=1_000_000))
    store.add("a", "", "plan")
    store.end("a", 200, os.urandom(1_100_000))
    with pytest.raises(WorkRefused):
        store.add("b", "", "plan")
    store.close()


def test_no_more_ids_are_remembered_than_are_of_use(store: Store) -> None:
    for number in range(40):
        store.add(f"{number}", "", "plan")
        store.cancel(f"{number}", "")
    store.settle()
    codes = [refused(store, f"{number}") for number in range(40)]
    assert codes.count("work_gone") == 4 * 3


def test_its_file_is_its_owners_alone(store: Store, tmp_path: Path) -> None:
    store.add("a", "", "plan")
    files = list(tmp_path.iterdir())
    assert len(files) == 3, "the database, its log, and the memory that processes share"
    assert {stat.S_IMODE(file.stat().st_mode) for file in files} == {0o600}


def test_two_workers_with_many_threads_see_the_same(store: Store, tmp_path: Path, clock: Clock) -> None:
    other = Store(tmp_path, Settings(work_limit=100), clock)

    def work(number: int) -> bytes:
        one, another = (store, other) if number % 2 else (other, store)
        name = f"{number}"
        other.add(name, "", "plan")
        one.begin(name)
        another.tell({name: None})
        one.end(name, 200, name.encode())
        return another.find(name, "").document

    with ThreadPoolExecutor(8) as pool:
        assert list(pool.map(work, range(60))) == [f"{number}".encode() for number in range(60)]
    other.close()


def test_a_file_that_is_no_database_is_no_fault(tmp_path: Path) -> None:
    (tmp_path / "work.sqlite").write_bytes(b"rubbish" * 1000)
    store = Store(tmp_path, Settings())
    with pytest.raises(WorkRefused) as refusal:
        store.add("a", "", "plan")
    assert refusal.value.document.type == "/problems/work_not_kept"
    (tmp_path / "work.sqlite").unlink()
    store.add("a", "", "plan")
    store.close()
