"""What a brief leaves out: an allergen, a food group or a named food."""

from typing import Annotated, Literal

from pydantic import Discriminator, Field, Tag
from typing_extensions import TypeAliasType

from service.schemas.base import Incoming

#: How pydantic names the three forms of an entry in the path of an error; none is ever a field's name.
ALLERGEN_TAG, GROUP_TAG, FOOD_TAG = "excluded allergen", "excluded food group", "excluded food"


class ExcludedAllergen(Incoming):
    """An allergen to leave out. Unknown is never "free from": what nobody has spoken of is left out too."""

    allergen: Annotated[str, Field(min_length=1, max_length=40, examples=["milk"])]
    """The nine of the United States and the fourteen of the European Union: `milk`, `egg`, `fish`, `crustaceans`,
    `tree nuts`, `wheat`, `gluten cereals`, `peanuts`, `soybeans`, `sesame`, `celery`, `mustard`, `sulphites`, `lupin`,
    `molluscs`."""
    unknown: Annotated[Literal["excluded", "allowed"], Field(examples=["excluded"])] = "excluded"
    """What happens to an item of which nobody has said whether it contains it. `allowed` keeps it, with a warning:
    not for an allergy."""


class ExcludedFoodGroup(Incoming):
    """A food group to leave out. It is no allergen: butter and egg are of one group."""

    food_group: Annotated[str, Field(min_length=1, max_length=100, examples=["Dairy and Egg Products"])]
    """A group of the food table, upper and lower case alike; a label has none."""


class ExcludedFood(Incoming):
    """A named food to leave out."""

    food: Annotated[str, Field(min_length=1, max_length=200, examples=["paprika"])]
    """Leaves out every item whose name or food holds all of these words, and every dish with such an ingredient;
    or the id of one food."""


def _form_of(entry: object) -> str | None:
    tags = {"allergen": ALLERGEN_TAG, "food_group": GROUP_TAG, "food": FOOD_TAG}
    return next((tag for key, tag in tags.items() if _has(entry, key)), None)


def _has(entry: object, key: str) -> bool:
    return key in entry if isinstance(entry, dict) else hasattr(entry, key)


#: A named alias, so that the API's description and clients made from it have a name for the choice of three.
ExclusionBody = TypeAliasType(
    "ExclusionBody",
    Annotated[
        Annotated[ExcludedAllergen, Tag(ALLERGEN_TAG)]
        | Annotated[ExcludedFoodGroup, Tag(GROUP_TAG)]
        | Annotated[ExcludedFood, Tag(FOOD_TAG)],
        Discriminator(
            _form_of,
            custom_error_type="exclusion_form",
            custom_error_message="What to exclude is an object with allergen, food_group or food",
        ),
    ],
)
