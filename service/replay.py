"""A saved brief, answered again: is the plan the same? What `larderline replay` and `--save` are made of."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import TypeVar

from pydantic import BaseModel, ValidationError

from service.body import read_json
from service.compared import Comparison, compared, compared_faults, compared_reach
from service.planner import Planner, open_planner
from service.reacher import reached
from service.reworker import reworked
from service.schemas.brief import BriefBody
from service.schemas.reach import ReachBody
from service.schemas.record import Job, Record
from service.schemas.replay import DifferenceAnswer, ReplayAnswer
from service.schemas.rework import ReworkBody
from service.seen import SeenAnswer, SeenReach, SeenRework
from service.settings import Settings
from service.validation import problems_of
from service.words import number
from solver.deadline import Deadline
from solver.errors import Problem, UnusableBrief

_Model = TypeVar("_Model", bound=BaseModel)

_SAVE_ONE = "Save one with `larderline plan BRIEF --save RECORD`."

#: An answer has a few hundred values for each item of its brief, which has its own limit.
_VALUES_LIMIT = 2_000_000


def save(path: Path, job: Job, raw: bytes, answer: BaseModel) -> None:
    """Write down what was asked and what came of it. raw: a document that was answered. Raises OSError."""
    record = Record(job=job, asked=json.loads(raw), answer=answer.model_dump(mode="json"))
    path.write_text(record.model_dump_json(indent=1), encoding="utf-8")


def replay(raw: bytes, settings: Settings) -> ReplayAnswer:
    """Answer a record's brief again. raw: the record. Raises UnreadableBody, UnusableBrief.

    Nothing is kept of it, or a record could multiply.
    """
    document = read_json(raw, depth_limit=settings.depth_limit, values_limit=_VALUES_LIMIT)
    if isinstance(document, dict) and "asked" not in document:
        detail, remedy = "This is no record of what was asked and answered.", _SAVE_ONE
        raise UnusableBrief([Problem("/asked", "missing_field", detail, remedy)])
    record = _read(Record, document)
    if record.answer is None and record.fault is None:
        detail, remedy = "There is no answer to compare with.", _SAVE_ONE
        raise UnusableBrief([Problem("/answer", "missing_field", detail, remedy)])
    before = _seen(record.job, record.answer)
    planner = open_planner(settings.model_copy(update={"keep_folder": None}))
    after, fault = _again(planner, record)
    was, now = _word(before, record.fault), _word(after, fault)
    found = _compared(before, after) or compared_faults(was, now)
    return ReplayAnswer(
        title=str(_brief(record).get("title", "")),
        verdict=found.verdict,
        before=was,
        after=now,
        solver_before=record.solver or _solver(before),
        solver_after=f"{planner.backend.name} {planner.backend.version}",
        differences=list(found.differences),
    )


def _read(model: type[_Model], document: object) -> _Model:
    try:
        return model.model_validate(document)
    except ValidationError as error:
        raise UnusableBrief(problems_of(error.errors(), document)) from error


def _seen(job: Job, answer: dict[str, object] | None) -> SeenAnswer | SeenReach | None:
    if answer is None:
        return None
    if job == "reach":
        return _read(SeenReach, answer)
    return _read(SeenRework, answer).answer if job == "rework" else _read(SeenAnswer, answer)


def _again(planner: Planner, record: Record) -> tuple[SeenAnswer | SeenReach | None, str | None]:
    """The answer, or the kind of fault."""
    try:
        return _seen(record.job, _answer(planner, record).model_dump(mode="json")), None
    except UnusableBrief:
        raise
    except Exception as error:  # noqa: BLE001  whatever broke then may break now; that is what is asked for
        return None, type(error).__name__


def _answer(planner: Planner, record: Record) -> BaseModel:
    match record.job:
        case "plan":
            body = _read(BriefBody, record.asked)
            return planner.answer(planner.asked(body), Deadline.after(body.time_limit_s))
        case "rework":
            again = _read(ReworkBody, record.asked)
            return reworked(planner, again, Deadline.after(again.brief.time_limit_s))
        case "reach":
            asked = _read(ReachBody, record.asked)
            return reached(planner, asked, Deadline.after(asked.brief.time_limit_s))


def _compared(before: SeenAnswer | SeenReach | None, after: SeenAnswer | SeenReach | None) -> Comparison | None:
    if isinstance(before, SeenAnswer) and isinstance(after, SeenAnswer):
        return compared(before, after)
    if isinstance(before, SeenReach) and isinstance(after, SeenReach):
        return compared_reach(before, after)
    return None


def _word(seen: SeenAnswer | SeenReach | None, fault: str | None) -> str:
    if isinstance(seen, SeenAnswer):
        return seen.outcome
    return "reach" if seen is not None else f"fault {fault}"


def _solver(seen: SeenAnswer | SeenReach | None) -> str | None:
    if isinstance(seen, SeenReach):
        return f"{seen.solver} {seen.solver_version}"
    return seen.solver if seen is not None else None


def _brief(record: Record) -> dict[str, object]:
    brief = record.asked.get("brief")
    return brief if record.job != "plan" and isinstance(brief, dict) else record.asked


def readable_replay(answer: ReplayAnswer) -> str:
    """The verdict in a sentence, and a line for each difference."""
    solvers = {answer.solver_before or "an unknown solver", answer.solver_after}
    by = (
        f"by {answer.solver_after}"
        if len(solvers) == 1
        else f"before by {answer.solver_before}, now by {answer.solver_after}"
    )
    said = answer.after if answer.before == answer.after else f"{answer.before} before, {answer.after} now"
    return "\n".join([f"{answer.title}: {answer.verdict} ({said}; {by})", *_lines(answer.differences)]) + "\n"


def _lines(differences: list[DifferenceAnswer]) -> Iterator[str]:
    return (f"  {each.what}: {_text(each.before)} -> {_text(each.after)}" for each in differences)


def _text(value: float | str | None) -> str:
    if value is None:
        return "none"
    return value if isinstance(value, str) else number(value)
