"""From the solver's breakdown to the one that goes out."""

from collections.abc import Mapping

from service.schemas.breakdown import BreakdownAnswer, OnBasisAnswer
from service.translate.breakdown import GivenDish
from service.translate.cautions import to_cautions
from service.translate.declared import DeclaredFor, to_finding
from service.translate.numbers import maybe_rounded, rounded
from service.translate.plate_off import to_plate_off
from service.translate.portions import to_portions
from service.translate.reference import Reference
from service.translate.to_allergens import to_allergens
from service.translate.to_answer import EXACTNESS, REMINDER
from service.translate.to_brings import to_brings
from service.translate.to_cooked import to_cooked
from service.translate.to_dish import to_distribution, to_quantity, to_totals
from service.translate.to_nutrition import to_nutrition
from solver.breakdown import Breakdown, OnBasis
from solver.declared import audit
from solver.declared_computed import computed_of
from solver.declared_finding import Finding
from solver.notes import notes
from solver.plate_off import plate_off
from solver.tally import scaled


def to_breakdown(given: GivenDish, reference: Reference) -> BreakdownAnswer:
    """The numbers of a dish as the contract has them. Raises UnusableBrief where there is not enough to divide."""
    found = given.broken_down()
    dish, brief = found.dish, given.brief
    own = next(each for each in found.bases if each.basis is brief.energy_basis)
    per_100g = scaled(dish.batch, 100 / dish.batch.grams if dish.batch.grams > 0 else 0.0)
    return BreakdownAnswer(
        title=brief.title,
        portions=brief.portions,
        energy_basis=brief.energy_basis.value,
        quantities=[to_quantity(quantity) for quantity in dish.quantities],
        components=[to_cooked(cooked) for cooked in dish.cooked],
        raw=to_totals(dish.raw),
        batch=to_totals(dish.batch),
        portion=to_totals(dish.portion),
        per_100g=to_totals(per_100g),
        energy_distribution_percent=to_distribution(dish.distribution),
        fat_share_percent=maybe_rounded(own.fat_share_percent),
        ketogenic_ratio=maybe_rounded(dish.ketogenic_ratio),
        fatty_acid_to_glucose=maybe_rounded(found.woodyatt),
        bases=[_on_basis(each) for each in found.bases],
        brings=[to_brings(each) for each in found.brings],
        seasoning_carbohydrate_g=rounded(found.seasoning_carbohydrate_g),
        plate_may_be_off=to_plate_off(plate_off(dish, brief)),
        method_steps=given.method.with_dishes(quantity.item.name for quantity in dish.quantities),
        divided=to_portions(given.divided(found)),
        findings=[to_finding(each) for each in _audited(given.declared, found, own)],
        nutrition=to_nutrition(given.layout, dish, brief),
        allergens=to_allergens(dish.quantities, reference.allergens),
        cautions=to_cautions(reference.cautions(brief, dish, given.eater, given.profile)),
        warnings=[*given.scaling, *notes(brief, dish)],
        exactness=EXACTNESS,
        reminder=REMINDER,
    )


def _on_basis(found: OnBasis) -> OnBasisAnswer:
    return OnBasisAnswer(
        basis=found.basis.value,
        energy_kcal=rounded(found.energy_kcal),
        energy_kj=rounded(found.energy_kj),
        fat_share_percent=maybe_rounded(found.fat_share_percent),
        energy_distribution_percent=to_distribution(found.distribution),
    )


def _audited(asked: DeclaredFor | None, found: Breakdown, own: OnBasis) -> tuple[Finding, ...]:
    if asked is None:
        return ()
    batch, portion = found.dish.batch, found.dish.portion
    declared = asked.weighing(portion.grams, batch.grams)
    return audit(declared, {**computed_of(batch, asked.grams(portion.grams, batch.grams)), **_shares(found, own)})


def _shares(found: Breakdown, own: OnBasis) -> Mapping[str, float | None]:
    whole = {} if own.shares is None else {f"{name}_percent": share for name, share in own.shares.items()}
    return {"fat_share_percent": own.fat_share_percent, "ketogenic_ratio": found.dish.ketogenic_ratio, **whole}
