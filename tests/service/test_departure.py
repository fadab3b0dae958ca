import asyncio

import pytest
from starlette.types import Message

from service.departure import ClientLeft, unless_the_client_leaves


class Client:
    """Leaves when it is told to."""

    def __init__(self) -> None:
        self.leaves = asyncio.Event()
        self.stopped: list[str] = []

    async def receive(self) -> Message:
        await self.leaves.wait()
        return {"type": "http.disconnect"}

    def stop(self) -> None:
        self.stopped.append("stopped")


def test_a_client_that_stays_gets_its_answer() -> None:
    async def scenario() -> tuple[str, list[str]]:
        client = Client()
        return await unless_the_client_leaves(client.receive, lambda: asyncio.sleep(0.01, "answer"), client.stop), (
            client.stopped
        )

    assert asyncio.run(scenario()) == ("answer", [])


def test_what_goes_wrong_is_passed_on() -> None:
    async def work() -> None:
        raise ZeroDivisionError

    async def scenario() -> None:
        client = Client()
        with pytest.raises(ZeroDivisionError):
            await unless_the_client_leaves(client.receive, work, client.stop)

    asyncio.run(scenario())


def test_work_for_a_client_that_left_is_stopped_and_no_longer_waited_for() -> None:
    async def scenario() -> list[str]:
        client = Client()
        asyncio.get_running_loop().call_later(0.01, client.leaves.set)
        with pytest.raises(ClientLeft):
            await asyncio.wait_for(
                unless_the_client_leaves(client.receive, lambda: asyncio.sleep(60), client.stop), timeout=5
            )
        return client.stopped

    assert asyncio.run(scenario()) == ["stopped"]


def test_no_task_is_left_behind() -> None:
    async def scenario() -> int:
        client = Client()
        await unless_the_client_leaves(client.receive, lambda: asyncio.sleep(0), client.stop)
        await asyncio.sleep(0)
        return len(asyncio.all_tasks())

    assert asyncio.run(scenario()) == 1
