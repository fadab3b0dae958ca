"""What a reader must know of a plan that holds within a tolerance."""

from collections.abc import Iterator

from solver.brief import Brief
from solver.holds import Tolerance
from solver.nutrients import COLUMN
from solver.quantities import QUANTITY
from solver.targets import WeightBasis
from solver.tolerances import eu_range


def holds_notes(brief: Brief) -> Iterator[str]:
    """Sentences for the answer's warnings."""
    if brief.holds is None:
        return
    if any(target.priority is not None for target in brief.targets):
        yield "Wishes are served for the composition as stated; only musts hold within the tolerance."
    if brief.holds.tolerance is Tolerance.EU:
        yield from _without_row(brief)
    printed = any(item.food.half_interval is not None for item in brief.pantry)
    if brief.holds.tolerance is Tolerance.LABEL_ROUNDING and not printed:
        yield "No item is from a printed label, so there is no rounding to hold within."
    eaten = any(target.priority is None and target.basis is WeightBasis.AS_EATEN for target in brief.targets)
    if eaten and any(component.is_mix or component.is_weighed for component in brief.components):
        yield (
            "What runs out of a mix or of a weighed pan moves with its composition: there the tolerance was held by a "
            "bound that is never too small, so a dish may hold although none was found."
        )


def _without_row(brief: Brief) -> Iterator[str]:
    names = {name for target in brief.targets if target.priority is None for name in QUANTITY[target.of].columns}
    without = sorted(name for name in names if name in COLUMN and eu_range(name, 1.0) is None)
    if without:
        yield f"The EU tolerance has no row for {', '.join(without)}, which is taken as stated."
