"""What an audit as a whole keeps: true labels, and silence about what is not declared."""

import math
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from solver.declared import audit
from solver.declared_numbers import FIELDS, Declared
from solver.label_print import printed
from solver.label_rounding import LabelLayout, Printed
from solver.label_text import number_printed, read_printed
from tests.solver.declarations import declared


def test_what_is_not_declared_is_not_doubted() -> None:
    assert audit(declared()) == ()
    assert audit(declared("US", 28, energy_kcal=900)) == ()
    assert audit(declared("EU", energy_kcal=100, fat_g=50, ketogenic_ratio=3)) == ()


def test_a_less_than_is_anything_below() -> None:
    small = Printed(1, less_than=True)
    assert audit(declared("US", energy_kcal=100, fat_g=11, protein_g=small, total_carbohydrate_g=small)) == ()
    assert declared("US", fibre_g=small).text("fibre_g") == "less than 1 g"


amounts = st.floats(0, 60)


@given(amounts, amounts, amounts, st.floats(0, 1), st.sampled_from(LabelLayout))
def test_a_true_label_has_no_finding_that_rounding_leaves_open(
    fat: float, protein: float, total: float, fibre_share: float, layout: LabelLayout
) -> None:
    fibre = total * fibre_share
    carbohydrate = {"total_carbohydrate_g": total} if layout is LabelLayout.US else {"carbohydrate_g": total - fibre}
    true = {"fat_g": fat, "protein_g": protein, "fibre_g": fibre, **carbohydrate}
    true["energy_kcal"] = 9 * fat + 4 * protein + 4 * (total - fibre) + 2 * fibre
    if layout is LabelLayout.EU:
        true["energy_kj"] = 37 * fat + 17 * protein + 17 * (total - fibre) + 8 * fibre
    values = {
        name.replace("carbohydrate_g", "available_carbohydrate_g") if name == "carbohydrate_g" else name: read_printed(
            printed(name, value, layout), name.rpartition("_")[2], decimal_comma=False
        )
        for name, value in true.items()
    }
    found = audit(Declared(values, layout, weight_g=fat + protein + total), {})
    assert [finding for finding in found if not finding.rounding_explains and finding.code != "energy_basis"] == []


hostile = st.sampled_from([0, 5e-324, 1e-300, 1e-9, 0.5, 1, 99.5, 1e6]) | st.floats(0, 1e6)


@given(
    st.dictionaries(st.sampled_from(list(FIELDS)), st.tuples(hostile, st.booleans())),
    st.dictionaries(st.sampled_from(list(FIELDS)), hostile | st.none()),
    st.sampled_from([None, *LabelLayout]),
    st.sampled_from([None, 0.1, 28, 1e6]),
)
def test_whatever_is_declared_every_finding_is_a_finite_number_and_a_sentence(
    numbers: dict[str, tuple[float, bool]],
    computed: dict[str, float | None],
    layout: LabelLayout | None,
    weight_g: float | None,
) -> None:
    values = {name: replace(number_printed(number), less_than=less) for name, (number, less) in numbers.items()}
    for finding in audit(Declared(values, layout, weight_g), computed):
        assert math.isfinite(finding.by)
        assert finding.by >= 0
        assert finding.text.endswith(".")
        assert not {"nan", "inf"} & set(finding.text.replace(",", "").split())
