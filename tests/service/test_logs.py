import json
import logging
import sys

from service.logs import JsonLines, frames_of


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
