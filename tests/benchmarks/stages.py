"""Where the time of one answer goes, stage by stage, each measured alone: `python -m tests.benchmarks --profile`."""

import json
import sys
from collections.abc import Callable
from typing import TypeAlias

from pydantic import TypeAdapter

from service.body import read_json
from service.planner import open_planner
from service.schemas.answer import Answer
from service.schemas.brief import BriefBody
from service.settings import Settings
from service.translate.beside import Beside
from service.translate.to_answer import to_answer
from solver.chain import Chain
from solver.deadline import Deadline
from solver.formulate import formulate
from solver.levels import levels
from solver.missing import count
from solver.outcome import Plan
from solver.usable import refuse_unusable
from solver.verify import dish_of
from tests.benchmarks.briefs import Larder, lp_brief, posted
from tests.benchmarks.floor import Finished, floor_s
from tests.benchmarks.measure import interleaved

ITEMS, REPETITIONS = 40, 31

Stages: TypeAlias = dict[str, Callable[[], object]]


def stages() -> tuple[Stages, Finished]:
    """Each stage on the finished work of those before."""
    settings = Settings()
    planner = open_planner(settings)
    brief = lp_brief(Larder.of(planner.catalogue), ITEMS, 0)
    raw = json.dumps(posted(brief)).encode()
    limits = {"depth_limit": settings.depth_limit, "values_limit": settings.values_limit}
    document = read_json(raw, **limits)
    body = BriefBody.model_validate(document)
    asked = planner.asked(body)
    plan = planner.solve(asked.brief, planner.backend)
    if not isinstance(plan, Plan):
        raise TypeError("this brief has a plan")
    formulation = formulate(asked.brief, count(asked.brief))
    answer = to_answer(asked, plan, planner.reference, Beside())
    adapter: TypeAdapter[object] = TypeAdapter(Answer)

    def backend() -> None:
        chain = Chain(planner.backend, formulation)
        chain.run(levels(formulation), Deadline.after(5))
        chain.close()

    found: Stages = {
        "parse: bytes to document": lambda: read_json(raw, **limits),
        "parse: document to schema": lambda: BriefBody.model_validate(document),
        "translate: schema to brief": lambda: planner.asked(body),
        "formulate: check the brief": lambda: refuse_unusable(asked.brief),
        "formulate: pose it": lambda: formulate(asked.brief, count(asked.brief)),
        "backend: open, solve two levels, check": backend,
        "verify: rebuild the dish": lambda: dish_of(plan.dish.quantities, asked.brief, frozenset()),
        "solve, whole": lambda: planner.solve(asked.brief, planner.backend),
        "render: outcome to answer": lambda: to_answer(asked, plan, planner.reference, Beside()),
        "render: answer to bytes": lambda: adapter.dump_json(answer),
    }
    return found, Finished.of(brief)


def say_stages() -> None:
    """Print the profile of a brief of 40 items."""
    found, finished = stages()
    taken, floor = interleaved(found, REPETITIONS), floor_s(finished, REPETITIONS)
    for name, each in taken.items():
        sys.stdout.write(f"{name:<42} {1000 * each:7.2f} ms {each / floor:7.1f} floors\n")
