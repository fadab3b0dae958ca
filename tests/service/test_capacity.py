import os
import sys
import threading
import time
from collections.abc import Awaitable, Callable

import anyio
import pytest

from service.capacity import Capacity
from service.lanes import SLOW_AFTER_S, Busy, Kind
from service.metrics import SECONDS, Metrics
from service.settings import Settings
from solver.deadline import Deadline

LONG = Deadline.after(3600)


def capacity_of(at_once: int = 1, waiting: int = 0, slow: int = 0) -> Capacity:
    return Capacity(Settings(solves_at_once=at_once, solves_waiting=waiting, slow_solves_at_once=slow))


async def while_held(capacity: Capacity, kind: Kind, times: int, then: Callable[[], Awaitable[None]]) -> None:
    """Runs `then` while so many pieces of work are held in their places, or wait for one."""
    gate = threading.Event()
    async with anyio.create_task_group() as group:
        for _ in range(times):
            group.start_soon(capacity.run, lambda: gate.wait(10), LONG, kind)
        await anyio.wait_all_tasks_blocked()
        try:
            await then()
        finally:
            gate.set()


def test_work_runs_off_the_event_loop() -> None:
    async def scenario() -> tuple[int, int]:
        return threading.get_ident(), await capacity_of().run(threading.get_ident, LONG)

    loop, worker = anyio.run(scenario)
    assert loop != worker


@pytest.mark.parametrize("kind", Kind)
def test_one_more_than_may_wait_is_sent_away_and_the_others_are_served(kind: Kind) -> None:
    async def scenario() -> None:
        capacity = capacity_of(at_once=1, waiting=1)

        async def one_more() -> None:
            assert (capacity.lanes()[kind].running, capacity.lanes()[kind].waiting) == (1, 1)
            with pytest.raises(Busy):
                await capacity.run(lambda: None, LONG, kind)

        await while_held(capacity, kind, 2, one_more)
        assert capacity.under_way == 0

    anyio.run(scenario)


def test_nobody_waits_longer_than_its_own_deadline() -> None:
    async def scenario() -> None:
        capacity = capacity_of(at_once=1, waiting=5)

        async def hurried() -> None:
            with pytest.raises(Busy):
                await capacity.run(lambda: None, Deadline.after(0.05))

        await while_held(capacity, Kind.STEPPED, 1, hurried)

    anyio.run(scenario)


def test_a_free_place_is_taken_however_near_the_deadline_is() -> None:
    async def scenario() -> str:
        return await capacity_of().run(lambda: "served", Deadline.after(0))

    assert anyio.run(scenario) == "served"


def test_a_place_is_free_again_after_work_that_failed() -> None:
    async def scenario() -> str:
        capacity = capacity_of()
        with pytest.raises(ZeroDivisionError):
            await capacity.run(lambda: 1 // 0, LONG)
        return await capacity.run(lambda: "served", LONG)

    assert anyio.run(scenario) == "served"


def test_work_with_steps_never_keeps_linear_work_waiting() -> None:
    async def scenario() -> None:
        capacity = capacity_of(at_once=1, waiting=3)

        async def linear() -> None:
            assert capacity.lanes()[Kind.STEPPED].is_full
            assert await capacity.run(lambda: "served", Deadline.after(0), Kind.LINEAR) == "served"

        await while_held(capacity, Kind.STEPPED, 4, linear)

    anyio.run(scenario)


@pytest.mark.parametrize("kind", Kind)
def test_a_solve_that_goes_on_gives_its_place_to_the_next(kind: Kind) -> None:
    async def scenario() -> float:
        capacity, waited_s = capacity_of(at_once=1, waiting=3, slow=1), 0.0

        async def next_one() -> None:
            nonlocal waited_s
            began = time.monotonic()
            await capacity.run(lambda: None, LONG, kind)
            waited_s = time.monotonic() - began
            assert capacity.lanes()[kind].running == 1, "the slow one still goes on, in a place of its own"

        await while_held(capacity, kind, 1, next_one)
        return waited_s

    assert SLOW_AFTER_S / 2 < anyio.run(scenario) < 5


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere a thread has no priority of its own")
def test_threads_of_work_with_steps_give_way_to_those_of_linear_work() -> None:
    """Nice values, setpriority(2): the higher, the lower the priority."""

    async def niceness(kind: Kind) -> int:
        return await capacity_of().run(lambda: os.getpriority(os.PRIO_PROCESS, 0), LONG, kind)

    assert anyio.run(niceness, Kind.STEPPED) > anyio.run(niceness, Kind.LINEAR)


def test_no_more_slow_ones_go_on_than_have_a_place() -> None:
    async def scenario() -> None:
        capacity = capacity_of(at_once=1, waiting=3, slow=1)

        async def another() -> None:
            with pytest.raises(Busy):
                await capacity.run(lambda: None, Deadline.after(2.5 * SLOW_AFTER_S))
            assert capacity.lanes()[Kind.STEPPED].running == 2

        await while_held(capacity, Kind.STEPPED, 2, another)
        assert capacity.under_way == 0, "a moved place is given back once"

    anyio.run(scenario)


def test_work_that_waits_is_dropped_at_once_when_its_caller_leaves() -> None:
    async def scenario() -> int:
        capacity, ran, waiting = capacity_of(at_once=1, waiting=1), [], -1

        async def leave() -> None:
            nonlocal waiting
            with anyio.move_on_after(0.05):
                await capacity.run(lambda: ran.append("dropped work"), LONG)
            waiting = capacity.lanes()[Kind.STEPPED].waiting

        await while_held(capacity, Kind.STEPPED, 1, leave)
        assert ran == []
        return waiting

    assert anyio.run(scenario) == 0


@pytest.mark.parametrize("kind", Kind)
def test_what_waits_and_what_runs_is_counted_and_so_is_how_long_it_took(kind: Kind) -> None:
    async def scenario() -> None:
        metrics = Metrics()
        capacity = Capacity(Settings(solves_at_once=1, solves_waiting=1), metrics)

        async def counted() -> None:
            assert (metrics.total("running", kind.value), metrics.total("waiting", kind.value)) == (1, 1)

        await while_held(capacity, kind, 2, counted)
        assert (metrics.total("running", kind.value), metrics.total("waiting", kind.value)) == (0, 0)
        assert sum(metrics.total(f"solve_seconds_{place}", kind.value) for place in range(len(SECONDS))) == 2
        assert metrics.total("solve_seconds_sum", kind.value) > 0

    anyio.run(scenario)


def test_a_closed_service_finishes_what_it_took_and_takes_no_more() -> None:
    async def scenario() -> None:
        capacity = capacity_of(at_once=2, waiting=5)

        async def close() -> None:
            capacity.close()
            assert capacity.under_way == 2
            with pytest.raises(Busy):
                await capacity.run(lambda: None, LONG)

        await while_held(capacity, Kind.STEPPED, 2, close)
        assert capacity.under_way == 0

    anyio.run(scenario)
