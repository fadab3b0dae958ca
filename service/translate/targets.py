"""The targets of a brief as the solver's bands."""

import math

from service.schemas.brief import TargetBody
from service.translate.names import refuse_unknown, refuse_unprintable
from service.translate.place import Place
from solver.quantities import QUANTITY
from solver.targets import Per, Target, WeightBasis
from solver.targets_default import default_within


def to_targets(bodies: list[TargetBody], place: Place) -> tuple[Target, ...]:
    """The targets in the brief's order. Those that are refused at `place` are left out."""
    _refuse_equal_ids(bodies, place)
    targets = (_target(body, place / index) for index, body in enumerate(bodies))
    return tuple(target for target in targets if target is not None)


def _refuse_equal_ids(bodies: list[TargetBody], place: Place) -> None:
    seen: set[str] = set()
    for index, body in enumerate(bodies):
        key = body.id or body.of
        if key in seen:
            where = place / index if body.id is None else place / index / "id"
            detail = "Another target has this id; without one, a target is called what it is `of`."
            where.refuse("repeated_id", detail, "Give each target an id of its own.")
        seen.add(key)


def _target(body: TargetBody, place: Place) -> Target | None:
    if body.id is not None:
        refuse_unprintable(body.id, place / "id")
    unknown = refuse_unknown(body.of, QUANTITY, "unknown_quantity", place / "of")
    if _refuse_band(body, place) or unknown:
        return None
    lower, upper, within = _band(body)
    return Target(
        id=body.id or body.of,
        of=body.of,
        per=Per(body.per),
        lower=lower,
        upper=upper,
        aim=body.aim,
        within=within,
        priority=body.priority,
        basis=WeightBasis(body.basis),
    )


def _refuse_band(body: TargetBody, place: Place) -> bool:
    """Refuse a target without a band, with two kinds of band, or with `within` alone; says whether it was refused."""
    ends = body.at_least is not None or body.at_most is not None
    remedy = "Give aim, with or without within; or at_least, at_most or both."
    if body.aim is not None and ends:
        place.refuse("two_bands", "The band is given in two ways.", remedy)
    elif body.aim is None and body.within is not None:
        (place / "within").refuse("within_without_aim", "There is no aim to be within.", remedy)
    elif body.aim is None and not ends:
        place.refuse("no_band", "The target has no band.", remedy)
    else:
        return False
    return True


def _band(body: TargetBody) -> tuple[float | None, float | None, float | None]:
    """(lower, upper, within); within is None when the band is given by its ends."""
    if body.aim is None:
        return body.at_least, body.at_most, None
    within = default_within(body.of, body.aim) if body.within is None else body.within
    most = 100.0 if QUANTITY[body.of].unit == "%" else math.inf
    return max(0.0, body.aim - within), min(max(most, body.aim), body.aim + within), within
