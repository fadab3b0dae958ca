"""The container, built and run, where there is something to build and run it with: `pytest -m container`.

Without a daemon, buildah and podman do both. The base image has to be there already or to be within reach. Settings of
where they keep images come from the environment: LARDER_BOX_OPTIONS for both, LARDER_BUILD_OPTIONS, LARDER_RUN_OPTIONS.
"""

import json
import os
import shlex
import shutil
import socket
import subprocess
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx2
import pytest

from service.keys import as_set, new_key

ROOT = Path(__file__).parents[2]
IMAGE = "larderline:test"
LARGEST_BYTES = 450_000_000

pytestmark = [
    pytest.mark.container,
    pytest.mark.skipif(not (shutil.which("buildah") and shutil.which("podman")), reason="needs buildah and podman"),
]


def options(name: str) -> list[str]:
    return shlex.split(os.environ.get(name, ""))


def podman(*arguments: str, check: bool = True) -> str:
    command = ["podman", *options("LARDER_BOX_OPTIONS"), *options("LARDER_PODMAN_OPTIONS"), *arguments]
    done = subprocess.run(command, capture_output=True, text=True, check=check, timeout=120)
    return done.stdout.strip()


@pytest.fixture(scope="module")
def image() -> str:
    build = ["buildah", *options("LARDER_BOX_OPTIONS"), "build", *options("LARDER_BUILD_OPTIONS"), "--format", "docker"]
    command = [*build, "-t", IMAGE, "."]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False, timeout=900)
    assert done.returncode == 0, done.stderr[-2000:]
    return IMAGE


@pytest.fixture(scope="module")
def key() -> str:
    return new_key()


@pytest.fixture(scope="module")
def running(image: str, key: str) -> Iterator[tuple[str, str]]:
    """The name and the address of a container whose root file system is read-only and which may do nothing special."""
    with socket.create_server(("127.0.0.1", 0)) as free:
        port = free.getsockname()[1]
    name = f"larderline-test-{port}"
    settings = {"LARDERLINE_PORT": str(port), "LARDERLINE_API_KEYS": as_set("test", key)}
    given = [word for item in settings.items() for word in ("-e", "=".join(item))]
    hardened = ["--read-only", "--tmpfs", "/tmp", "--cap-drop", "all", "--network", "host"]  # noqa: S108  inside it
    podman("run", "-d", "--name", name, *hardened, *options("LARDER_RUN_OPTIONS"), *given, image)
    address = f"http://127.0.0.1:{port}"
    ends = time.monotonic() + 60
    while not is_ready(address):
        assert time.monotonic() < ends, podman("logs", name)
        time.sleep(0.2)
    yield name, address
    podman("rm", "-f", name)


def is_ready(address: str) -> bool:
    try:
        return httpx2.get(f"{address}/readyz").status_code == 200
    except httpx2.TransportError:
        return False


def test_the_image_is_small(image: str) -> None:
    assert int(json.loads(podman("image", "inspect", image))[0]["Size"]) < LARGEST_BYTES


def test_it_does_not_start_without_a_key(image: str) -> None:
    said = podman("run", "--rm", "--network", "host", *options("LARDER_RUN_OPTIONS"), image, check=False)
    assert said == ""


def test_it_plans_for_who_has_the_key(running: tuple[str, str], key: str, salmon: dict[str, Any]) -> None:
    address = running[1]
    assert httpx2.post(f"{address}/v1/plans", json=salmon).status_code == 401
    answer = httpx2.post(f"{address}/v1/plans", json=salmon, headers={"Authorization": f"Bearer {key}"}, timeout=20)
    assert answer.json()["outcome"] == "plan"


def test_it_is_nobody_special_and_can_write_nothing(running: tuple[str, str]) -> None:
    name = running[0]
    assert podman("exec", name, "id", "-u") == "65532"
    for place in ("/x", "/app/x"):
        tried = f"touch {place} 2>/dev/null && echo written"
        assert podman("exec", name, "sh", "-c", tried, check=False) == ""


def test_it_stops_when_it_is_told_to(running: tuple[str, str]) -> None:
    began = time.monotonic()
    podman("stop", "-t", "45", running[0])
    assert podman("inspect", running[0], "--format", "{{.State.ExitCode}}") == "0"
    assert time.monotonic() - began < 15
