"""Polyols and allulose on a label: how much of each, and what of it counts as available carbohydrate."""

from collections.abc import Mapping
from dataclasses import dataclass

from reference_data import reference_folder
from service.schemas.labels import EuLabel, UsLabel
from service.translate.label_values import Layout, Value
from service.translate.names import refuse_unknown
from service.translate.place import Place
from solver.foods import Polyols
from solver.label_rounding import NOTHING, Interval
from solver.polyols import ALLULOSE, ERYTHRITOL, PolyolKind, combined, load_polyols


@dataclass(frozen=True, slots=True)
class HeldPolyols:
    """values: by kind, for the weight of the label. counted: the share of each kind that counts."""

    values: Mapping[str, Value]
    counted: Mapping[str, float]

    def per_100g(self, weight_g: float) -> Polyols | None:
        """What 100 g hold; None where the label states none."""
        if not self.values:
            return None
        return combined({kind: value.read() * 100 / weight_g for kind, value in self.values.items()}, self.counted)

    def intervals(self) -> dict[str, Interval]:
        """What the label claims, as `label_audit.Claims` names it."""
        claims = {"polyols": NOTHING, ERYTHRITOL: NOTHING, ALLULOSE: NOTHING}
        for kind, value in self.values.items():
            claimed = kind if kind in claims else "polyols"
            claims[claimed] += value.interval
        return claims

    def remark(self) -> tuple[str, ...]:
        """What is counted of each kind, in one sentence; none where nothing is held."""
        shares = [f"{self.counted[kind]:.0%} of {kind}" for kind, value in self.values.items() if value.read() > 0]
        return (f"counted as available carbohydrate: {', '.join(shares)}.",) if shares else ()


def polyols_of(label: UsLabel | EuLabel, layout: Layout, place: Place) -> HeldPolyols:
    """What a label states of polyols and, in the US, allulose. What is wrong is refused at `place`."""
    fields = {} if label.polyols is None else label.polyols.model_dump(exclude_none=True)
    values = layout.values(fields, place / "polyols", row="polyols")
    if isinstance(label, UsLabel) and label.allulose_g is not None:
        values |= layout.values({"allulose_g": label.allulose_g}, place)
    if not (values or label.count_polyols_as):
        return HeldPolyols({}, {})
    kinds = load_polyols(reference_folder() / "polyols.csv")
    counted = {name: kind.counted for name, kind in kinds.items()} | _chosen(label, kinds, place / "count_polyols_as")
    return HeldPolyols({name.removesuffix("_g"): value for name, value in values.items()}, counted)


def _chosen(label: UsLabel | EuLabel, kinds: Mapping[str, PolyolKind], place: Place) -> dict[str, float]:
    for name, share in label.count_polyols_as.items():
        if refuse_unknown(name, kinds, "unknown_polyol", place / name):
            continue
        if share == 0 and not kinds[name].may_be_left_out:
            detail = "This kind is never left out altogether."
            (place / name).refuse("never_left_out", detail, "Give a share above 0, or leave it to the default.")
    return label.count_polyols_as
