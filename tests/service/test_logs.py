import json
import logging
import subprocess
import sys

from service.logs import JsonLines, frames_of
from tests.service.conftest import REPOSITORY


def record(message: str, **passed: object) -> logging.LogRecord:
    made = logging.makeLogRecord({"name": "larderline", "levelno": logging.INFO, "levelname": "INFO", "msg": message})
    made.created = 0.0
    vars(made).update(passed)
    return made


def test_a_line_is_one_json_object_with_what_was_passed() -> None:
    line = JsonLines().format(record("request", status=200, route="/v1/plans"))
    assert json.loads(line) == {
        "time": "1970-01-01T00:00:00.000+00:00",
        "level": "info",
        "logger": "larderline",
        "message": "request",
        "status": 200,
        "route": "/v1/plans",
    }


def test_a_line_stays_one_line_and_ascii() -> None:
    line = JsonLines().format(record("a\nb\u2028c \N{COOKING}"))
    assert line.isascii()
    assert "\n" not in line


def test_what_other_libraries_log_is_a_line_like_ours_and_quotes_no_exception() -> None:
    script = """
import asyncio, gc, logging.config
from service.logs import CONFIG
logging.config.dictConfig(dict(CONFIG))
async def fail():
    float("35 g of secret")
async def leave_it():
    asyncio.create_task(fail())
    await asyncio.sleep(0)
asyncio.run(leave_it())
gc.collect()
"""
    done = subprocess.run([sys.executable, "-c", script], cwd=REPOSITORY, capture_output=True, text=True, check=True)
    line = json.loads(done.stderr)
    assert (line["logger"], line["error"]) == ("asyncio", "ValueError")
    assert "secret" not in done.stderr


def test_an_exception_is_named_and_located_and_not_quoted() -> None:
    try:
        float("35 g of secret")
    except ValueError as error:
        line = JsonLines().format(record("fault", exc_info=sys.exc_info()))
        frames = frames_of(error)
    assert json.loads(line)["error"] == "ValueError"
    assert json.loads(line)["frames"] == frames
    assert frames[-1].endswith("test_an_exception_is_named_and_located_and_not_quoted")
    assert "secret" not in line
