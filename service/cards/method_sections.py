"""The method: its steps as they were given, with the safe temperature beside the step that reaches it."""

from collections.abc import Iterator, Sequence

from service.cards.card import AnySection, Step, Steps
from service.cards.reader import Reader
from service.schemas.cautions import CautionAnswer
from service.schemas.cooked import CookedAnswer
from service.schemas.method_steps import MethodStepAnswer


def method(
    steps: Sequence[MethodStepAnswer],
    components: Sequence[CookedAnswer],
    cautions: Sequence[CautionAnswer],
    reader: Reader,
) -> Iterator[AnySection]:
    """The steps; where none were given, one for each component that is cooked, so that its temperature is not lost."""
    given = steps or [_of_component(each) for each in components if each.method is not None]
    if given:
        reached = _reached(given, components)
        drawn = tuple(_step(step, cautions if number in reached else (), reader) for number, step in enumerate(given))
        yield Steps(reader.say("Method"), "left", drawn)


def _of_component(each: CookedAnswer) -> MethodStepAnswer:
    text = each.method or each.name
    return MethodStepAnswer(
        dish=None, text=text, component=each.name, minutes=None, celsius=None, vessel=None, until_safe=True
    )


def _reached(steps: Sequence[MethodStepAnswer], components: Sequence[CookedAnswer]) -> set[int]:
    """Numbers of the steps that reach the safe temperature of a component: those that say so, else the last hot one."""
    said = {number for number, step in enumerate(steps) if step.until_safe}
    of_said = {steps[number].component for number in said}
    if None in of_said:
        return said
    for each in components:
        hot = [
            number
            for number, step in enumerate(steps)
            if step.celsius is not None and step.dish is None and step.component in {each.name, None}
        ]
        if each.name not in of_said and hot:
            said.add(hot[-1])
    return said


def _step(step: MethodStepAnswer, cautions: Sequence[CautionAnswer], reader: Reader) -> Step:
    safe = [each.beside_a_step for each in cautions if each.beside_a_step and _is_about(each, step.component)]
    return Step(step.text, tuple(_facts(step, reader)), " ".join(dict.fromkeys(safe)) or None)


def _is_about(caution: CautionAnswer, component: str | None) -> bool:
    """The trigger of such a caution begins with its component."""
    return component is None or caution.trigger.startswith(f"{component}:")


def _facts(step: MethodStepAnswer, reader: Reader) -> Iterator[str]:
    if step.dish is not None:
        yield reader.say("beforehand, for {dish}", dish=step.dish)
    if step.component is not None:
        yield step.component
    if step.vessel is not None:
        yield step.vessel
    if step.celsius is not None:
        yield reader.degrees(step.celsius)
    if step.minutes is not None:
        yield reader.say("{minutes} min", minutes=f"{step.minutes:g}")
