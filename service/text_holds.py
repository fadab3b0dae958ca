"""What a plan holds within, as lines of text for the terminal."""

from collections.abc import Iterable, Iterator

from service.schemas.dish import TargetAnswer
from service.schemas.holds_carried import CarriedAnswer
from service.words import number


def worst_lines(targets: Iterable[TargetAnswer]) -> Iterator[str]:
    """Each target with the least and the most that it can come to."""
    for target in targets:
        worst = target.worst_case
        if worst is not None:
            most = "no limit" if worst.highest is None else number(round(worst.highest, 2), target.unit)
            yield f"- {target.id}: {number(round(worst.lowest, 2), target.unit)} to {most}"


def carried_line(carried: CarriedAnswer) -> str:
    """How much of the tolerance has a plan, and how much has none."""
    unproven = "" if carried.proven else "; it is not proven that no more is possible"
    return (
        f"A plan exists {carried.text}; holding within {number(carried.not_above_percent)} percent of it has none"
        f"{unproven}."
    )
