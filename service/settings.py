"""Every setting and every limit of the service, in one place. Each is read from LARDERLINE_<NAME>."""

import os
from pathlib import Path
from typing import Annotated, Literal

from pydantic import Field
from pydantic_settings import BaseSettings, SettingsConfigDict


def _cores() -> int:
    return os.cpu_count() or 1


class Settings(BaseSettings):
    """Immutable once read; a value out of range stops the start."""

    model_config = SettingsConfigDict(env_prefix="LARDERLINE_", frozen=True, use_attribute_docstrings=True)

    host: str = "127.0.0.1"
    """Address that `larderline serve` listens on."""
    port: Annotated[int, Field(ge=0, le=65535)] = 8000
    """Port that it listens on; 0 lets the system choose."""
    backend: Literal["highs", "scipy-highs", "pulp-cbc"] = "highs"
    """Solver."""
    food_table: Path | None = None
    """Folder of the reference food table; the one inside the product when not set."""
    time_limit_ceiling_s: Annotated[float, Field(gt=0, le=3600)] = 30.0
    """Longest time limit that a brief may ask for, seconds."""
    solves_at_once: Annotated[int, Field(ge=1)] = Field(default_factory=_cores)
    """Briefs solved at the same time; one a core."""
    solves_waiting: Annotated[int, Field(ge=0)] = 32
    """Briefs that may wait for their turn; one more is sent away with 503."""
    body_limit_bytes: Annotated[int, Field(ge=1024)] = 1_000_000
    """Largest request body."""
    body_deadline_s: Annotated[float, Field(gt=0)] = 10.0
    """Longest time that a client may take to send its body, seconds."""
    pantry_limit: Annotated[int, Field(ge=1)] = 200
    """Most pantry items of one brief."""
    target_limit: Annotated[int, Field(ge=1)] = 100
    """Most targets of one brief."""
