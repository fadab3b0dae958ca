"""What a plan has to hold within: from the body of a request, and as it goes out."""

from service.schemas.holds import HoldsBody, WorstCaseAnswer
from service.translate.numbers import maybe_rounded, rounded
from service.translate.place import Place
from service.words import number
from solver.brief import Brief
from solver.holds import Holds, Tolerance, WorstCase

_US = "US tolerance"


def to_holds(body: HoldsBody | None, place: Place) -> Holds | None:
    """What to hold within; None where nothing is asked, or something is refused."""
    if body is None:
        return None
    if (body.tolerance is None) == (body.percent is None):
        remedy = "Give tolerance, or percent by nutrient."
        place.refuse("one_tolerance", "A plan holds within one tolerance, by its name or in percent.", remedy)
        return None
    if body.tolerance == _US:
        detail = (
            "The limits of 21 CFR 101.9(g) are one-sided: too much of what is wanted, or too little of what is not, is "
            "no breach, so they can guarantee neither a carbohydrate ceiling nor a fat floor."
        )
        (place / "tolerance").refuse("one_sided_tolerance", detail, "Hold within the EU tolerance, or give percent.")
        return None
    if body.tolerance is None:
        return Holds(Tolerance.PERCENT, dict(body.percent or {}), body.most_items_off, cooking=body.with_cooking)
    return Holds(Tolerance(body.tolerance), most_off=body.most_items_off, cooking=body.with_cooking)


def to_worst_case(worst: WorstCase | None) -> WorstCaseAnswer | None:
    """A target's worst case as the contract has it."""
    if worst is None:
        return None
    return WorstCaseAnswer(lowest=rounded(worst.lowest), highest=maybe_rounded(worst.highest))


def tolerance_name(brief: Brief) -> str:
    """What a brief has to hold within, in words."""
    if brief.holds is None:
        return "nothing"
    off = "" if brief.holds.most_off is None else f", no more than {brief.holds.most_off} of the items off at once"
    off += ", with what the cooking table leaves open" if brief.holds.cooking else ""
    if brief.holds.tolerance is Tolerance.PERCENT:
        return ", ".join(f"{number(percent, '%')} of {name}" for name, percent in brief.holds.percent.items()) + off
    return ("the EU tolerance" if brief.holds.tolerance is Tolerance.EU else "the label rounding") + off
