"""Logs as one JSON object a line, on standard error. No line holds anything of a brief or of a query.

So a line has the message of a log call and the fields that were passed with it, and of an exception its type and
where it was raised, never what it says: messages of exceptions repeat what they stumbled over. What other libraries log
goes the same way, the first line of it, since asyncio tells an exception in the second.
"""

import json
import logging
import traceback
from collections.abc import Mapping
from datetime import UTC, datetime
from types import MappingProxyType
from typing import Any

#: What every log record has of its own (Python's logging documentation, LogRecord attributes); all else was passed.
_STANDARD = frozenset(vars(logging.makeLogRecord({}))) | {"message", "asctime", "taskName", "color_message"}

#: For `logging.config.dictConfig`; the server's own lines go the same way. Its access lines are ours to write.
CONFIG: Mapping[str, Any] = MappingProxyType(
    {
        "version": 1,
        "disable_existing_loggers": False,
        "formatters": {"json": {"()": "service.logs.JsonLines"}},
        "handlers": {"stderr": {"class": "logging.StreamHandler", "formatter": "json", "stream": "ext://sys.stderr"}},
        "root": {"handlers": ["stderr"], "level": "WARNING"},
        "loggers": {
            "larderline": {"handlers": ["stderr"], "level": "INFO", "propagate": False},
            "uvicorn": {"handlers": ["stderr"], "level": "INFO", "propagate": False},
            "uvicorn.access": {"handlers": [], "level": "CRITICAL", "propagate": False},
        },
    }
)


class JsonLines(logging.Formatter):
    """One JSON object a record, in ASCII, so that a line stays a line."""

    def format(self, record: logging.LogRecord) -> str:
        """The line, without its end."""
        passed = {name: value for name, value in vars(record).items() if name not in _STANDARD}
        line: dict[str, object] = {
            "time": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "logger": record.name,
            "message": record.getMessage().partition("\n")[0],
            **passed,
        }
        if record.exc_info and record.exc_info[1] is not None:
            line |= {"error": type(record.exc_info[1]).__name__, "frames": frames_of(record.exc_info[1])}
        return json.dumps(line)


def frames_of(error: BaseException) -> list[str]:
    """Where an exception was raised, from the outermost call to the innermost, and nothing of what it says."""
    frames = traceback.extract_tb(error.__traceback__)
    return [f"{frame.filename}:{frame.lineno} {frame.name}" for frame in frames]
