"""The method on a card: beside the step that cooks a component stands how far it has to be cooked."""

from service.cards.card import Steps
from service.cards.method_sections import method
from service.cards.reader import Reader
from service.schemas.cautions import CautionAnswer
from service.schemas.cooked import CookedAnswer
from tests.service.handmade import COOKED


def beside(caution: CautionAnswer) -> str | None:
    (found,) = method([], [CookedAnswer.model_validate(COOKED)], [caution], Reader())
    assert isinstance(found, Steps)
    return found.steps[0].safe


def caution(beside_a_step: str | None, trigger: str = "patties: beef") -> CautionAnswer:
    return CautionAnswer(code="any", text="All of it.", trigger=trigger, source="sr28", beside_a_step=beside_a_step)


def test_what_a_step_has_to_reach_is_said_in_a_few_words() -> None:
    assert beside(caution("Reach 71.2 °C.")) == "Reach 71.2 °C."


def test_what_is_about_no_step_or_about_another_component_is_not_beside_it() -> None:
    assert beside(caution(None)) is None
    assert beside(caution("Reach 71.2 °C.", trigger="patties two: beef")) is None
