"""The command line: `larderline plan FILE|-` and `larderline serve`.

`plan` ends with 0 for a plan, 2 for a brief that cannot be used, 3 for a conflict, 4 for undecided, 1 for a fault.
"""

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TextIO

from pydantic import ValidationError

from service.body import UnreadableBody, read_json
from service.planner import open_planner
from service.problems import unreadable, unusable
from service.schemas.answer import Answer
from service.schemas.brief import BriefBody
from service.schemas.problem import ProblemDocument, ProblemItem
from service.settings import Settings, misspelt, variable
from service.stdout import standard_output_kept_clean
from service.text import readable
from service.validation import problems_of
from solver.deadline import Deadline
from solver.errors import LarderlineError, UnusableBrief

EXIT_UNUSABLE = 2
EXIT_STATUS = {"plan": 0, "conflict": 3, "undecided": 4}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns its exit status. arguments: those of the process when None."""
    chosen = _parser().parse_args(arguments)
    wrong = list(misspelt(os.environ))
    if wrong:
        return _fail("; ".join(wrong))
    try:
        settings = Settings()
    except ValidationError as error:
        return _fail("; ".join(f"{variable(str(e['loc'][0]))}: {e['msg']}" for e in error.errors()))
    if chosen.command == "plan":
        return _plan(chosen.file, settings, as_json=chosen.json)
    return _serve(settings, chosen.host, chosen.port)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="larderline", description="Picks ingredient quantities so that a dish meets its targets."
    )
    commands = parser.add_subparsers(dest="command", required=True)
    plan = commands.add_parser("plan", help="make a plan from a brief and print it")
    plan.add_argument("file", help="the brief, a JSON file; - for standard input")
    plan.add_argument("--json", action="store_true", help="print the answer as JSON, as the service gives it")
    serve = commands.add_parser("serve", help="start the service")
    serve.add_argument("--host", help="address to listen on (LARDERLINE_HOST, else 127.0.0.1)")
    serve.add_argument("--port", type=int, help="port to listen on (LARDERLINE_PORT, else 8000)")
    return parser


def _plan(file: str, settings: Settings, *, as_json: bool) -> int:
    try:
        raw = sys.stdin.buffer.read() if file == "-" else Path(file).read_bytes()
    except OSError as error:
        return _fail(f"{file}: {error.strerror}", EXIT_UNUSABLE)
    with standard_output_kept_clean() as answers:
        try:
            answer = _answer(raw, settings)
        except UnreadableBody as error:
            return _refuse(unreadable(error.problem), answers, as_json=as_json)
        except UnusableBrief as error:
            return _refuse(unusable(error.problems), answers, as_json=as_json)
        except LarderlineError as error:
            return _fail(f"the fault is not the brief's: {error}")
        answers.write(answer.model_dump_json(indent=2) + "\n" if as_json else readable(answer))
    return EXIT_STATUS[answer.outcome]


def _answer(raw: bytes, settings: Settings) -> Answer:
    document = read_json(raw, depth_limit=settings.depth_limit, values_limit=settings.values_limit)
    try:
        body = BriefBody.model_validate(document)
    except ValidationError as error:
        raise UnusableBrief(problems_of(error.errors(), document)) from error
    planner = open_planner(settings)
    asked = planner.asked(body)
    return planner.answer(asked, Deadline.after(asked.brief.time_limit_s))


def _refuse(document: ProblemDocument, answers: TextIO, *, as_json: bool) -> int:
    """With --json the document goes where the answer would; else each problem is a line on standard error."""
    if as_json:
        answers.write(document.model_dump_json(indent=2, exclude_none=True) + "\n")
    else:
        sys.stderr.writelines(_line(problem) for problem in document.problems)
    return EXIT_UNUSABLE


def _line(problem: ProblemItem) -> str:
    where = problem.pointer or "the whole brief"
    return f"{where}: {problem.detail} {problem.remedy}\n"


def _fail(message: str, status: int = 1) -> int:
    sys.stderr.write(f"larderline: {message}\n")
    return status


def _serve(settings: Settings, host: str | None, port: int | None) -> int:
    from service.server import serve  # noqa: PLC0415  `plan` needs no web framework, which is slow to import

    try:
        started = serve(settings, host or settings.host, settings.port if port is None else port)
    except LarderlineError as error:
        return _fail(f"cannot start: {error}")
    return 0 if started else 1
