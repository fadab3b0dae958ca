"""What the container's files promise, where nothing can build them: locked, nobody special, watched, told to stop."""

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def dockerfile() -> str:
    return (ROOT / "Dockerfile").read_text()


@pytest.mark.parametrize("lock", ["build.lock", "container.lock"])
def test_everything_that_is_installed_is_one_version_with_its_hashes(lock: str) -> None:
    requirements = re.split(r"\n(?=\S)", (ROOT / lock).read_text().strip())
    assert requirements
    for requirement in requirements:
        assert re.match(r"[\w.-]+(\[[\w,-]+\])?==[\w.]+", requirement), requirement
        assert "--hash=sha256:" in requirement, requirement


def test_nothing_is_installed_without_them(dockerfile: str) -> None:
    installs = re.findall(r"/bin/pip install ([^\\&\n]*)", dockerfile)
    assert len(installs) == 3
    assert all("--require-hashes" in each or "--no-index" in each for each in installs)


def test_the_last_stage_is_slim_nobody_special_watched_and_told_to_stop_by_the_signal_that_drains(
    dockerfile: str,
) -> None:
    last = dockerfile.rpartition("\nFROM ")[2]
    assert "-slim-" in last.splitlines()[0]
    user = re.findall(r"^USER (\d+):(\d+)$", last, re.MULTILINE)
    assert user
    assert "0" not in user[0]
    assert "HEALTHCHECK" in last
    assert "/readyz" in last
    assert "STOPSIGNAL SIGTERM" in last
    assert 'ENTRYPOINT ["larderline"]' in last, "the service is process 1 itself, and gets the signal"


@pytest.mark.parametrize(
    "promise",
    [
        "read_only: true",
        "- ALL",
        "no-new-privileges:true",
        "LARDERLINE_API_KEYS:?",
        "mem_limit:",
        "pids_limit:",
        "stop_grace_period: 45s",
    ],
)
def test_the_compose_file_starts_it_within_bounds_and_never_without_a_key(promise: str) -> None:
    assert promise in (ROOT / "compose.yaml").read_text()
