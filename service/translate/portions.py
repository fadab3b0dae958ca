"""Divisions of the contract in the solver's words, and the portions back."""

from collections.abc import Sequence

from service.schemas.portions import (
    DivisionBody,
    EatsBody,
    EnergyDivision,
    EnergyPortionBody,
    EqualDivision,
    PiecesDivision,
    PortionAnswer,
    PortionComponentAnswer,
    SharePortionBody,
    SharesDivision,
    WeighedPortionBody,
    WeightDivision,
)
from service.translate.amounts import positive_grams_of
from service.translate.label_food import unweighed
from service.translate.names import refuse_unprintable
from service.translate.numbers import rounded
from service.translate.place import Place
from service.translate.to_dish import to_totals
from solver.portion_shares import Asked, ByEnergy, ByPieces, ByShares, ByWeight, Equal, How
from solver.portions import Division, Portion

_SCALE_G = {"1 g": 1.0, "0.1 g": 0.1}


def to_division(body: DivisionBody, place: Place) -> Division | None:
    """The division; None when it is refused at `place`."""
    before = len(place.problems)
    how = _how(body, place)
    return Division(how, _SCALE_G[body.scale]) if len(place.problems) == before else None


def to_portions(portions: Sequence[Portion]) -> list[PortionAnswer]:
    """The portions as the contract has them."""
    return [_portion(portion) for portion in portions]


def _how(body: DivisionBody, place: Place) -> How:
    match body:
        case EqualDivision():
            return Equal(body.portions)
        case PiecesDivision():
            return ByPieces(body.cut_into, _asked(body.eats, place / "eats"))
        case WeightDivision():
            return ByWeight(_asked(body.portions, place / "portions"))
        case SharesDivision():
            return ByShares(_asked(body.portions, place / "portions"))
        case EnergyDivision():
            return ByEnergy(_asked(body.portions, place / "portions"))


def _asked(
    bodies: Sequence[EatsBody | WeighedPortionBody | SharePortionBody | EnergyPortionBody], place: Place
) -> tuple[Asked, ...]:
    asked = []
    for number, body in enumerate(bodies):
        here = place / number
        refuse_unprintable(body.name, here / "name")
        asked.append(Asked(body.name, _amount(body, here)))
    return tuple(asked)


def _amount(body: EatsBody | WeighedPortionBody | SharePortionBody | EnergyPortionBody, place: Place) -> float:
    match body:
        case EatsBody():
            return body.pieces
        case WeighedPortionBody():
            return positive_grams_of(body.weight, unweighed(body.name), place / "weight") or 0.0  # refused if none
        case SharePortionBody():
            return body.parts
        case EnergyPortionBody():
            return body.energy_kcal


def _portion(portion: Portion) -> PortionAnswer:
    return PortionAnswer(
        name=portion.name,
        share=rounded(float(portion.share)),
        pieces=portion.pieces,
        leftover=portion.leftover,
        weigh_out_g=portion.weigh_out_g,
        text=f"{portion.weigh_out_g:.1f}".removesuffix(".0") + " g",
        components=[
            PortionComponentAnswer(name=name, grams=rounded(part.grams), weigh_out_g=part.weigh_out_g)
            for name, part in portion.components.items()
        ],
        totals=to_totals(portion.totals),
    )
