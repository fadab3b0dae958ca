import threading

import anyio
import pytest

from service.capacity import Busy, Capacity
from solver.deadline import Deadline


def test_work_runs_off_the_event_loop() -> None:
    async def scenario() -> tuple[int, int]:
        capacity = Capacity(at_once=1, waiting=0)
        return threading.get_ident(), await capacity.run(threading.get_ident, Deadline.after(5))

    loop, worker = anyio.run(scenario)
    assert loop != worker


def test_one_more_than_may_wait_is_sent_away_and_the_others_are_served() -> None:
    async def scenario() -> tuple[list[str], bool]:
        capacity, gate, served = Capacity(at_once=1, waiting=1), threading.Event(), []

        async def serve(name: str) -> None:
            served.append(await capacity.run(lambda: name if gate.wait(5) else "late", Deadline.after(5)))

        async with anyio.create_task_group() as group:
            group.start_soon(serve, "first")
            await anyio.wait_all_tasks_blocked()
            group.start_soon(serve, "second")
            await anyio.wait_all_tasks_blocked()
            refused = False
            try:
                await capacity.run(lambda: "third", Deadline.after(5))
            except Busy:
                refused = True
            gate.set()
        return served, refused

    assert anyio.run(scenario) == (["first", "second"], True)


def test_nobody_waits_longer_than_its_own_deadline() -> None:
    async def scenario() -> None:
        capacity, gate = Capacity(at_once=1, waiting=5), threading.Event()
        async with anyio.create_task_group() as group:
            group.start_soon(capacity.run, lambda: gate.wait(5), Deadline.after(5))
            await anyio.wait_all_tasks_blocked()
            try:
                with pytest.raises(Busy):
                    await capacity.run(lambda: None, Deadline.after(0.05))
            finally:
                gate.set()

    anyio.run(scenario)


def test_a_free_place_is_taken_however_near_the_deadline_is() -> None:
    async def scenario() -> str:
        return await Capacity(at_once=1, waiting=0).run(lambda: "served", Deadline.after(0))

    assert anyio.run(scenario) == "served"


def test_a_place_is_free_again_after_work_that_failed() -> None:
    async def scenario() -> str:
        capacity = Capacity(at_once=1, waiting=0)
        with pytest.raises(ZeroDivisionError):
            await capacity.run(lambda: 1 // 0, Deadline.after(5))
        return await capacity.run(lambda: "served", Deadline.after(5))

    assert anyio.run(scenario) == "served"
