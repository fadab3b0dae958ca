"""The service in one process: embedded data, one solver, no other component. Logs go to standard error."""

import copy
from typing import Any

import uvicorn
from uvicorn.config import LOGGING_CONFIG

from service.app import create_app
from service.settings import Settings

#: Seconds after the longest solve that a stopping service still gives to answers under way.
_GRACE_S = 5


def serve(settings: Settings, host: str, port: int) -> None:
    """Answer requests until the process is told to stop; solves under way are finished first."""
    uvicorn.run(
        create_app(settings),
        host=host,
        port=port,
        log_config=_log_config(),
        timeout_graceful_shutdown=round(settings.time_limit_ceiling_s) + _GRACE_S,
        server_header=False,
    )


def _log_config() -> dict[str, Any]:
    config = copy.deepcopy(LOGGING_CONFIG)
    config["handlers"]["access"]["stream"] = "ext://sys.stderr"
    config["loggers"]["larderline"] = {"handlers": ["default"], "level": "INFO", "propagate": False}
    return config
