"""The documents that the fuzzers change things in hold every field of the contract, and are answered as they are."""

import httpx2
import pytest
from pydantic import BaseModel

from service.schemas.breakdown_body import BreakdownBody
from service.schemas.brief import BriefBody, PantryItemBody, TargetBody
from service.schemas.components import ComponentBody
from service.schemas.declared import DeclaredBody, DeclaredDistribution, DeclaredFactors
from service.schemas.dish_source import DiscardedBody, DishBody, DishComponentBody, IngredientBody
from service.schemas.eater import EaterBody
from service.schemas.method_steps import MethodStepBody
from service.schemas.portions import EqualDivision
from service.schemas.rules import RuleBody
from tests.service.asking import answer_to, breakdown_of
from tests.service.full import DOCUMENTS, FULL_BREAKDOWNS, FULL_BRIEF, places


def test_the_full_brief_has_a_plan(client: httpx2.Client) -> None:
    answer = answer_to(client, FULL_BRIEF)
    assert answer["outcome"] == "plan", answer.get("members")


@pytest.mark.parametrize("dish", FULL_BREAKDOWNS, ids=lambda dish: dish["division"]["kind"])
def test_the_full_dishes_are_broken_down(client: httpx2.Client, dish: dict[str, object]) -> None:
    told = breakdown_of(client, dish)
    assert told["divided"]
    assert told["findings"]
    assert told["nutrition"]


#: Total and available carbohydrate are not declared together; what was weighed is finished without a word.
APART = {"DeclaredBody.total_carbohydrate_g", *(f"{kind}.finished" for kind in ("ComponentBody", "DishComponentBody"))}


def test_every_field_stands_somewhere() -> None:
    of_plans: list[type[BaseModel]] = [BriefBody, PantryItemBody, TargetBody, ComponentBody, DishBody, IngredientBody]
    of_dishes: list[type[BaseModel]] = [RuleBody]
    of_both: list[type[BaseModel]] = [DishComponentBody, DiscardedBody, EaterBody, MethodStepBody]
    of_declared: list[type[BaseModel]] = [DeclaredBody, DeclaredDistribution, DeclaredFactors]
    of_breakdowns: list[type[BaseModel]] = [BreakdownBody, EqualDivision, *of_declared]
    wanted = {"/v1/plans": [*of_plans, *of_dishes, *of_both], "/v1/breakdowns": [*of_both, *of_breakdowns]}
    for address, models in wanted.items():
        names = {path[-1] for document in DOCUMENTS[address] for path in places(document)}
        known = {f"{model.__name__}.{field}": field for model in models for field in model.model_fields}
        assert {known_as for known_as, field in known.items() if field not in names} <= APART, address
