"""Other good plans as they go out."""

from service.translate.alternatives import to_alternatives
from service.translate.to_dish import to_dish
from solver.alternatives import alternatives
from solver.backends import open_backend
from solver.deadline import Deadline
from solver.outcome import Dish, Plan
from tests.solver import larder
from tests.solver.worths import planned


def test_every_alternative_goes_out_with_its_dish_and_what_it_differs_by() -> None:
    oil = larder.macronutrients("oil", fat=100)
    plan = planned(larder.brief(*larder.pantry(larder.BUTTER, oil)))
    found = alternatives(plan, 3, open_backend("highs"), Deadline.after(30.0))
    answer = to_alternatives(found, plan, lambda _: ())
    assert (answer.level, answer.most_loss, answer.ended) == ("balanced", 0.25, found.ended.value)
    assert len(answer.plans) == len(found.found) > 0
    for out, one in zip(answer.plans, found.found, strict=True):
        assert out.dish == to_dish(one.dish)
        assert set(out.differs_by) == set(one.differs_by) <= {"butter", "oil"}
        assert out.mass_share_percent == round(100 * one.mass_share, 6)
        assert out.loss <= answer.most_loss


def test_the_cautions_are_those_of_the_alternative_and_not_of_the_plan() -> None:
    oil = larder.macronutrients("oil", fat=100)
    plan = planned(larder.brief(*larder.pantry(larder.BUTTER, oil)))
    found = alternatives(plan, 1, open_backend("highs"), Deadline.after(30.0))
    asked: list[Dish] = []

    def cautions_of(other: Plan) -> tuple[()]:
        asked.append(other.dish)
        return ()

    to_alternatives(found, plan, cautions_of)
    assert asked == [one.dish for one in found.found]
