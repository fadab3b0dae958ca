"""How far the plate may be off, as lines of text."""

from collections.abc import Iterator

from service.schemas.plate_off import OffByAnswer, PlateOffAnswer

#: Sources of error that are named; the others are smaller.
_MOST_SOURCES = 3


def off_lines(off: PlateOffAnswer) -> Iterator[str]:
    """A portion's energy, fat and fat share, and where most of it comes from."""
    portion = off.portion
    if not off.sources:
        yield "The sources of the numbers do not say how far they are off, so nobody knows how far the plate is."
        return
    parts = [f"energy {_by(portion.energy_kcal)} kcal"]
    if "fat_g" in portion.nutrients:
        parts.append(f"fat {_by(portion.nutrients['fat_g'])} g")
    if off.fat_share_points is not None:
        parts.append(f"fat share {_by(off.fat_share_points)} percentage points")
    yield f"A portion, nine times in ten, as far as the sources say, by no more than: {', '.join(parts)}."
    unsaid = [f"{_title(of)} of {', '.join(names)}" for of, names in off.nothing_stated_for.items() if names]
    if unsaid:
        yield f"Not counted, since the sources do not say how far they are off: {'; '.join(unsaid)}."
    for source in off.sources[:_MOST_SOURCES]:
        yield f"- {source.kind}, {source.about}: {source.why}"


def _title(nutrient: str) -> str:
    return nutrient.rpartition("_")[0].replace("_", " ")


def _by(off: OffByAnswer) -> str:
    below, above = (_number(end) for end in (off.below, off.above))
    return f"+-{above}" if below == above else f"-{below} +{above}"


def _number(end: float | None) -> str:
    return "?" if end is None else f"{end:.1f}"
