"""The steps of the method as text for the terminal."""

from collections.abc import Iterator, Sequence

from service.schemas.method_steps import MethodStepAnswer


def step_lines(steps: Sequence[MethodStepAnswer]) -> Iterator[str]:
    """One line a step, numbered, with what it is done in, how hot and how long."""
    for number, step in enumerate(steps, 1):
        facts = ", ".join(_facts(step))
        yield f"{number}. {step.text}" + (f" ({facts})" if facts else "")


def _facts(step: MethodStepAnswer) -> Iterator[str]:
    if step.dish is not None:
        yield f"beforehand, for {step.dish}"
    yield from (each for each in (step.component, step.vessel) if each is not None)
    if step.celsius is not None:
        yield f"{step.celsius:g} °C"
    if step.minutes is not None:
        yield f"{step.minutes:g} min"
    if step.until_safe:
        yield "until the centre is safe"
