"""The command line: `larderline plan`, `rework`, `reach` and `breakdown`, each with FILE|-, `replay` and `serve`.

`plan` and `rework` end with 0 for a plan, 3 for a conflict, 4 for undecided; `reach` and `breakdown` with 0 for an
answer; `replay` with 0 for the same, 5 for other amounts that are as good, 6 for what is different; all with 2 for what
cannot be used, 1 for a fault.
"""

import argparse
import os
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import TextIO, TypeAlias, TypeVar, get_args

from pydantic import ValidationError

from service.body import UnreadableBody, read_json
from service.gap_line import gap_line
from service.planner import open_planner
from service.problems import unreadable, unusable
from service.reacher import reached
from service.replay import readable_replay, replay, save
from service.reworker import reworked
from service.schemas.answer import Answer
from service.schemas.breakdown import BreakdownAnswer
from service.schemas.breakdown_body import BreakdownBody
from service.schemas.brief import BriefBody
from service.schemas.problem import ProblemDocument, ProblemItem
from service.schemas.reach import ReachAnswer, ReachBody
from service.schemas.record import Job
from service.schemas.replay import ReplayAnswer
from service.schemas.rework import ReworkAnswer, ReworkBody
from service.settings import Settings, misspelt, variable
from service.stdout import standard_output_kept_clean
from service.text import readable
from service.text_breakdown import readable_breakdown
from service.text_reach import readable_reach
from service.text_rework import readable_rework
from service.validation import problems_of
from solver.deadline import Deadline
from solver.errors import LarderlineError, UnusableBrief

EXIT_UNUSABLE = 2
EXIT_STATUS = {"plan": 0, "conflict": 3, "undecided": 4}
REPLAY_STATUS = {"the same": 0, "as good, other amounts": 5, "different": 6}

_Body = TypeVar("_Body", BriefBody, ReworkBody, ReachBody, BreakdownBody)

_Answer: TypeAlias = Answer | ReworkAnswer | ReachAnswer | BreakdownAnswer | ReplayAnswer

#: From the bytes of a document to its answer.
_Job: TypeAlias = Callable[[bytes, Settings], _Answer]


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns its exit status. arguments: those of the process when None."""
    chosen = _parser().parse_args(arguments)
    wrong = list(misspelt(os.environ))
    if wrong:
        return _fail("; ".join(wrong))
    workers = getattr(chosen, "workers", None)
    try:
        settings = Settings() if workers is None else Settings(workers=workers)
    except ValidationError as error:
        return _fail("; ".join(_said_of_settings(error)))
    if chosen.command in _JOBS:
        return _plan(chosen, settings)
    if chosen.command == "key":
        return _key(chosen.name)
    return _serve(settings, chosen.host, chosen.port)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="larderline", description="Picks ingredient quantities so that a dish meets its targets."
    )
    commands = parser.add_subparsers(dest="command", required=True)
    for name, (what, document) in _SAID.items():
        job = commands.add_parser(name, help=what)
        job.add_argument("file", help=f"{document}, a JSON file; - for standard input")
        job.add_argument("--json", action="store_true", help="print the answer as JSON, as the service gives it")
        if name in get_args(Job):
            job.add_argument("--save", type=Path, help="write what was asked and the answer to this file, for `replay`")
    serve = commands.add_parser("serve", help="start the service")
    serve.add_argument("--host", help="address to listen on (LARDERLINE_HOST, else 127.0.0.1)")
    serve.add_argument("--port", type=int, help="port to listen on (LARDERLINE_PORT, else 8000)")
    serve.add_argument("--workers", type=int, help="processes that answer (LARDERLINE_WORKERS, else 1)")
    key = commands.add_parser("key", help="make a key for callers of the service")
    key.add_argument("name", help="whose key it is, as the log names it")
    return parser


def _plan(chosen: argparse.Namespace, settings: Settings) -> int:
    file, job, as_json = chosen.file, _JOBS[chosen.command], chosen.json
    try:
        raw = sys.stdin.buffer.read() if file == "-" else Path(file).read_bytes()
    except OSError as error:
        return _fail(f"{file}: {error.strerror}", EXIT_UNUSABLE)
    with standard_output_kept_clean() as answers:
        try:
            answer = job(raw, settings)
        except UnreadableBody as error:
            return _refuse(unreadable(error.problem), answers, as_json=as_json)
        except UnusableBrief as error:
            return _refuse(unusable(error.problems), answers, as_json=as_json)
        except LarderlineError as error:
            return _fail(f"the fault is not the brief's: {error}")
        answers.write(answer.model_dump_json(indent=2) + "\n" if as_json else _text(answer, bars=answers.isatty()))
    if getattr(chosen, "save", None) is not None:
        try:
            save(chosen.save, chosen.command, raw, answer)
        except OSError as error:
            return _fail(f"{chosen.save}: {error.strerror}", EXIT_UNUSABLE)
    return _status(answer)


def _status(answer: _Answer) -> int:
    match answer:
        case ReplayAnswer():
            return REPLAY_STATUS[answer.verdict]
        case ReachAnswer() | BreakdownAnswer():
            return 0
        case _:
            return EXIT_STATUS[answer.outcome]


def _answer(raw: bytes, settings: Settings) -> Answer:
    body = _body(raw, settings, BriefBody)
    planner = open_planner(settings)
    asked = planner.asked(body)
    with gap_line(sys.stderr) as watch:
        return planner.answer(asked, Deadline.after(asked.brief.time_limit_s), watch=watch)


def _rework(raw: bytes, settings: Settings) -> ReworkAnswer:
    body = _body(raw, settings, ReworkBody)
    planner = open_planner(settings)
    with gap_line(sys.stderr) as watch:
        return reworked(planner, body, Deadline.after(body.brief.time_limit_s), watch=watch)


def _said_of_settings(error: ValidationError) -> Iterator[str]:
    """What is wrong, but for values that are only not known since another one is wrong."""
    for each in error.errors():
        if each["type"] != "default_factory_not_called":
            yield f"{variable(str(each['loc'][0]))}: {each['msg']}"


def _body(raw: bytes, settings: Settings, kind: type[_Body]) -> _Body:
    document = read_json(raw, depth_limit=settings.depth_limit, values_limit=settings.values_limit)
    try:
        return kind.model_validate(document)
    except ValidationError as error:
        raise UnusableBrief(problems_of(error.errors(), document)) from error


def _reach(raw: bytes, settings: Settings) -> ReachAnswer:
    body = _body(raw, settings, ReachBody)
    return reached(open_planner(settings), body, Deadline.after(body.brief.time_limit_s))


def _breakdown(raw: bytes, settings: Settings) -> BreakdownAnswer:
    return open_planner(settings).broken_down(_body(raw, settings, BreakdownBody))


def _text(answer: _Answer, *, bars: bool) -> str:
    match answer:
        case ReworkAnswer():
            return readable_rework(answer, bars=bars)
        case ReachAnswer():
            return readable_reach(answer)
        case ReplayAnswer():
            return readable_replay(answer)
        case BreakdownAnswer():
            return readable_breakdown(answer)
        case _:
            return readable(answer, bars=bars)


_JOBS: dict[str, _Job] = {
    "plan": _answer,
    "rework": _rework,
    "reach": _reach,
    "breakdown": _breakdown,
    "replay": replay,
}

#: What each command does, and what its document is.
_SAID: dict[str, tuple[str, str]] = {
    "plan": ("make a plan from a brief and print it", "the brief"),
    "rework": ("make a dish anew after tasting and print it", "the dish and what is said of it"),
    "reach": ("print what a pantry can do under the musts of a brief", "the brief and what to ask of it"),
    "breakdown": ("print the numbers of a dish as it is", "the dish"),
    "replay": (
        "answer a saved brief again and say whether the plan is the same",
        "a record that --save wrote or was kept",
    ),
}


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


def _key(name: str) -> int:
    from service.keys import as_set, new_key  # noqa: PLC0415  no other command needs it

    key = new_key()
    sys.stdout.write(f"key, shown this once: {key}\nsetting:              LARDERLINE_API_KEYS={as_set(name, key)}\n")
    return 0


def _serve(settings: Settings, host: str | None, port: int | None) -> int:
    from service.server import serve  # noqa: PLC0415  `plan` needs no web framework, which is slow to import

    try:
        started = serve(settings, host or settings.host, settings.port if port is None else port)
    except LarderlineError as error:
        return _fail(f"cannot start: {error}")
    return 0 if started else 1
