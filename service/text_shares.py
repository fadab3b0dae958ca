"""Where the energy comes from, as lines of text."""

from collections.abc import Iterator

from service.schemas.dish import DistributionAnswer


def share_lines(percent: DistributionAnswer | None, ratio: float | None, no_ratio: str | None = None) -> Iterator[str]:
    """The energy distribution and the ketogenic ratio. no_ratio: why there is none, where that is known."""
    if percent is not None:
        alcohol = f", {percent.alcohol} % alcohol" if percent.alcohol else ""
        yield f"{percent.fat} % fat, {percent.protein} % protein, {percent.carbohydrate} % carbohydrate{alcohol}"
    if ratio is not None:
        yield f"ketogenic ratio {ratio:.2f} : 1"
    elif no_ratio is not None:
        yield f"no ketogenic ratio: {no_ratio}"
