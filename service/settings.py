"""Every setting and every limit of the service, in one table. Each is read from LARDERLINE_<NAME>."""

import difflib
import os
import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, Field
from pydantic_settings import BaseSettings, NoDecode, SettingsConfigDict

PREFIX = "LARDERLINE_"

#: An origin as browsers send it (RFC 6454, section 6.1): scheme, host and perhaps a port, and nothing after.
_ORIGIN = re.compile(r"https?://[^\s/?#@]+")


#: A key as it is set: a name, and the SHA-256 of the key. The key itself is nowhere.
_KEY = re.compile(r"[A-Za-z0-9._-]{1,50}:[0-9a-f]{64}")


def _cores_a_worker(settings: dict[str, Any]) -> int:
    """A worker's part of the cores: more solves than cores only make each other wait."""
    return max(1, (os.cpu_count() or 1) // int(settings["workers"]))


def _split(text: object) -> object:
    return tuple(text.replace(",", " ").split()) if isinstance(text, str) else text


def _keys(keys: tuple[str, ...]) -> tuple[str, ...]:
    for key in keys:
        if not _KEY.fullmatch(key):
            raise ValueError("a key is written name:hash, the hash in 64 hexadecimal digits; larderline key makes one")
    return keys


def _origins(origins: tuple[str, ...]) -> tuple[str, ...]:
    for origin in origins:
        if origin != "*" and not _ORIGIN.fullmatch(origin):
            raise ValueError(f"{origin} is no origin; write it like https://recipes.example, or * for all")
    return origins


class Settings(BaseSettings):
    """Immutable once read; a value out of range stops the start."""

    model_config = SettingsConfigDict(env_prefix=PREFIX, frozen=True, use_attribute_docstrings=True)

    host: str = "127.0.0.1"
    """Address that `larderline serve` listens on."""
    port: Annotated[int, Field(ge=0, le=65535)] = 8000
    """Port that it listens on; 0 lets the system choose."""
    workers: Annotated[int, Field(ge=1, le=64)] = 1
    """Processes that answer; with more than one, another process replaces those that die."""
    grace_s: Annotated[float | None, Field(gt=0, le=7200)] = None
    """Seconds that a service which is told to stop gives to what it took in; when not set, the longest time limit and
    five more."""
    api_keys: Annotated[tuple[str, ...], NoDecode, BeforeValidator(_split), AfterValidator(_keys)] = ()
    """Keys that callers need, each `name:SHA-256 of the key`, separated by commas; `larderline key NAME` makes one."""
    api_keys_file: Path | None = None
    """A file with more of them, one a line."""
    open_to_all: bool = False
    """Lets the service listen beyond this machine without any key."""
    cors_origins: Annotated[tuple[str, ...], NoDecode, BeforeValidator(_split), AfterValidator(_origins)] = ()
    """Origins whose pages may call the service from a browser, separated by commas; none when not set."""
    backend: Literal["highs", "scipy-highs", "pulp-cbc"] = "highs"
    """Solver."""
    food_table: Path | None = None
    """Folder of the reference food table; the one inside the product when not set."""
    body_limit_bytes: Annotated[int, Field(ge=1024)] = 1_000_000
    """Largest request body, bytes."""
    body_deadline_s: Annotated[float, Field(gt=0)] = 10.0
    """Longest time that a client may take to send its body, seconds."""
    head_deadline_s: Annotated[float, Field(gt=0)] = 10.0
    """Longest time from the opening of a connection, or from the last answer on it, to the end of the next request's
    head, seconds."""
    connection_limit: Annotated[int, Field(ge=1)] = 500
    """Most open connections of a worker; one more closes the one that has been idle for longest."""
    depth_limit: Annotated[int, Field(ge=8, le=200)] = 32
    """Deepest nesting of the JSON that is read; a brief needs five levels."""
    values_limit: Annotated[int, Field(ge=100)] = 20_000
    """Most values in one body, whatever they are; 200 items with full labels have about 12,000."""
    pantry_limit: Annotated[int, Field(ge=1)] = 200
    """Most pantry items of one brief."""
    target_limit: Annotated[int, Field(ge=1)] = 100
    """Most targets of one brief."""
    time_limit_ceiling_s: Annotated[float, Field(gt=0, le=3600)] = 30.0
    """Longest time limit that a brief may ask for, seconds."""
    ways_out_time_s: Annotated[float, Field(gt=0, le=3600)] = 0.5
    """Longest time for the ways out of one conflict, seconds; what is not found by then is not told."""
    solves_at_once: Annotated[int, Field(ge=1)] = Field(default_factory=_cores_a_worker)
    """Briefs solved at the same time, of each of the two kinds, in each worker; when not set, the cores shared among
    the workers, one at least."""
    slow_solves_at_once: Annotated[int, Field(ge=0)] = 8
    """Solves of each kind that may go on beside those, once each has taken half a second."""
    solves_waiting: Annotated[int, Field(ge=0)] = 32
    """Briefs that may wait for their turn, of each kind, in each worker; one more is sent away with 503."""
    work_folder: Path | None = None
    """Folder in which the service makes one of its own, for as long as it runs, for answers that are fetched later;
    that of the system for temporary files when not set."""
    work_kept_s: Annotated[float, Field(gt=0, le=86400)] = 600.0
    """Seconds that such an answer is kept."""
    work_limit: Annotated[int, Field(ge=1)] = 1000
    """Most such answers that are kept or worked on, of all workers together; one more is sent away with 503."""
    work_limit_bytes: Annotated[int, Field(ge=1_000_000)] = 32_000_000
    """Bytes of such answers, compressed, beyond which no more is taken."""
    followers_limit: Annotated[int, Field(ge=0)] = 32
    """Most clients that follow such work as events, in each worker; one more is sent away with 503."""
    keep_folder: Path | None = None
    """Folder for the brief and the programme of each solve that stays undecided or fails; none is kept when not set."""
    kept_files: Annotated[int, Field(ge=2)] = 200
    """Most files in that folder, two for each solve; the oldest go first."""
    kept_bytes: Annotated[int, Field(ge=100_000)] = 50_000_000
    """Most bytes in that folder; the oldest go first."""


#: The settings that are limits of what is taken in: each is named in the problem that enforces it.
LIMITS = (
    "body_limit_bytes",
    "body_deadline_s",
    "head_deadline_s",
    "connection_limit",
    "depth_limit",
    "values_limit",
    "pantry_limit",
    "target_limit",
    "time_limit_ceiling_s",
    "solves_at_once",
    "slow_solves_at_once",
    "solves_waiting",
    "work_limit",
    "work_limit_bytes",
    "followers_limit",
)


def variable(setting: str) -> str:
    """The environment variable of a setting."""
    return PREFIX + setting.upper()


def misspelt(variables: Iterable[str]) -> Iterator[str]:
    """A sentence for each variable that looks like a setting and is none, with the nearest that is."""
    for name in sorted(variables):
        setting = name.upper().removeprefix(PREFIX).lower()
        if name.upper().startswith(PREFIX) and setting not in Settings.model_fields:
            near = difflib.get_close_matches(setting, Settings.model_fields, n=1)
            yield f"{name}: there is no such setting" + (f"; did you mean {variable(near[0])}?" if near else "")
