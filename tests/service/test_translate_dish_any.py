"""Whatever stands in dishes, they are made or refused."""

from hypothesis import given, settings
from hypothesis import strategies as st

from service.translate.reference import Reference
from tests.service.dishes_of_briefs import Fields, read

_NAMES = st.sampled_from(["a", "b", "c"])
_AMOUNTS = st.sampled_from(["1 g", "250 g", "1 cup", "2 tbsp", "0 g", "1", "1000000 kg", "0.001 mg", "1 cup + 1 piece"])
_LABELS: list[Fields] = [
    {"kind": "label", "per": "100 g", **values}
    for values in ({}, {"fat_g": 100.0}, {"water_g": 100.0, "energy_kcal": 1e6}, {"fat_g": 0.0})
]
_SOURCES = st.one_of(
    st.builds(lambda name: {"kind": "dish", "name": name}, _NAMES),
    st.sampled_from(["sr28:01001", "sr28:14429", "sr28:23572", "sr28:02047", "x"]).map(
        lambda food: {"kind": "food", "id": food}
    ),
    st.sampled_from(_LABELS),
)
_COMPONENTS = st.fixed_dictionaries(
    {"name": _NAMES},
    optional={
        "method": st.sampled_from(["broiled patty", "roasted", "simmered", "x"]),
        "drippings": st.sampled_from(["discarded", "served", "spooned back"]),
        "cooked_weight": _AMOUNTS,
        "drippings_weight": _AMOUNTS,
        "teaspoons": st.integers(0, 9),
    },
)
_DISHES = st.fixed_dictionaries(
    {
        "name": _NAMES,
        "ingredients": st.lists(
            st.fixed_dictionaries(
                {"name": _NAMES, "source": _SOURCES, "amount": _AMOUNTS}, optional={"goes_in": _NAMES}
            ),
            min_size=1,
            max_size=3,
        ),
    },
    optional={
        "components": st.lists(_COMPONENTS, min_size=1, max_size=2),
        "makes": _AMOUNTS,
        "weighs": _AMOUNTS,
        "strained_out": st.lists(_NAMES, min_size=1, max_size=2),
        "skimmed_fat": _AMOUNTS,
        "discarded": st.lists(st.fixed_dictionaries({"name": _NAMES, "amount": _AMOUNTS}), min_size=1, max_size=2),
    },
)


@settings(max_examples=300, deadline=None)
@given(dishes=st.lists(_DISHES, min_size=1, max_size=4))
def test_any_dishes_are_made_or_refused(reference: Reference, dishes: list[Fields]) -> None:
    found, problems = read(reference, *dishes)
    assert problems or all(food is not None for food in found.values())
    for food in found.values():
        if food is not None:
            assert all(value >= 0 for value in food.per_100g if value == value)  # noqa: PLR0124  NaN is missing
            assert food.value("fat_g") <= 100 * (1 + 1e-6) or food.is_missing("fat_g")
