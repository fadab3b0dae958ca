"""A food known by its label: as values alone, or as a US or an EU label prints them."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Discriminator, Field, Tag
from pydantic.config import JsonDict
from typing_extensions import TypeAliasType

from service.schemas.allergens import Stated
from service.schemas.amounts import Amount, NutrientAmount
from service.schemas.base import Incoming

#: How pydantic names the three variants in the path of an error; none is ever a field's name.
PLAIN_TAG, US_TAG, EU_TAG = "label without layout", "US label", "EU label"

#: The same for the two forms of a value on a label.
VALUE_TAGS = ("label value as number", "label value as text")


def _form_of(value: object) -> str | None:
    if isinstance(value, bool):
        return None
    if isinstance(value, str):
        return VALUE_TAGS[1]
    return VALUE_TAGS[0] if isinstance(value, int | float) else None


LabelText: TypeAlias = Annotated[str, Field(min_length=1, max_length=40, examples=["<0.5 g"])]
LabelValue: TypeAlias = Annotated[
    Annotated[NutrientAmount, Tag(VALUE_TAGS[0])] | Annotated[LabelText, Tag(VALUE_TAGS[1])],
    Discriminator(
        _form_of,
        custom_error_type="label_value_type",
        custom_error_message='A value of a label is a number, or text as printed such as "less than 1 g"',
    ),
]
Share: TypeAlias = Annotated[float, Field(ge=0, le=1)]


class PlainLabel(Incoming, extra="allow"):
    """Values of a food by nutrient, taken as exact. A value that is not given stays missing; it is never zero.

    Besides the fields below it takes every nutrient name that the API's description lists, e.g. `sodium_mg`.
    With `layout` it would be read as that layout prints; see UsLabel and EuLabel.
    """

    __pydantic_extra__: dict[str, NutrientAmount]

    kind: Literal["label"]
    """Says that the values come from a label."""
    contains: Stated = Field(default_factory=list)
    """Allergens that the label names."""
    without: Stated = Field(default_factory=list)
    """Allergens of which the label, or whoever made it, states that it has none."""
    per: Annotated[Amount, Field(examples=["100 g", "28 g"])]
    """The weight that the values are stated for, in a mass unit: `100 g`, or a serving such as `28 g`."""
    energy_kcal: Annotated[NutrientAmount | None, Field(examples=[110])] = None
    """Stated energy, kcal; used on the `declared` energy basis."""
    protein_g: Annotated[NutrientAmount | None, Field(examples=[7])] = None
    """Protein, g."""
    fat_g: Annotated[NutrientAmount | None, Field(examples=[9])] = None
    """Fat, g."""
    total_carbohydrate_g: Annotated[NutrientAmount | None, Field(examples=[0.5])] = None
    """Carbohydrate including fibre, g: how US labels state it. Not together with `available_carbohydrate_g`."""
    available_carbohydrate_g: Annotated[NutrientAmount | None, Field(examples=[0.5])] = None
    """Carbohydrate without fibre, g: how EU labels state it. Not together with `total_carbohydrate_g`."""
    fibre_g: Annotated[NutrientAmount | None, Field(examples=[0])] = None
    """Dietary fibre, g."""


class PolyolAmounts(Incoming):
    """Polyols (sugar alcohols) by kind, for the same weight as the rest of the label. Not stated counts as none."""

    erythritol_g: Annotated[LabelValue | None, Field(examples=[8])] = None
    """Erythritol, g: no energy, and not counted as available carbohydrate."""
    maltitol_g: Annotated[LabelValue | None, Field(examples=[12])] = None
    """Maltitol, g: half of it counts, unless `count_polyols_as` says more or less; never none."""
    xylitol_g: Annotated[LabelValue | None, Field(examples=[5])] = None
    """Xylitol, g: half of it counts, unless `count_polyols_as` says otherwise."""
    sorbitol_g: Annotated[LabelValue | None, Field(examples=[5])] = None
    """Sorbitol, g: likewise."""
    mannitol_g: Annotated[LabelValue | None, Field(examples=[5])] = None
    """Mannitol, g: likewise."""
    isomalt_g: Annotated[LabelValue | None, Field(examples=[5])] = None
    """Isomalt, g: likewise."""
    lactitol_g: Annotated[LabelValue | None, Field(examples=[5])] = None
    """Lactitol, g: likewise."""
    other_g: Annotated[LabelValue | None, Field(examples=[5])] = None
    """Sugar alcohols of a kind that the label does not name, g: all of it counts."""


class _PrintedLabel(Incoming):
    """What both layouts have in common."""

    kind: Literal["label"]
    """Says that the values come from a label."""
    contains: Stated = Field(default_factory=list)
    """Allergens that the label names."""
    without: Stated = Field(default_factory=list)
    """Allergens of which the label, or whoever made it, states that it has none."""
    energy_kcal: Annotated[LabelValue | None, Field(examples=[110])] = None
    """Printed energy, kcal (US: Calories); used on the `declared` energy basis."""
    fat_g: Annotated[LabelValue | None, Field(examples=[9])] = None
    """Fat, g."""
    saturated_fat_g: Annotated[LabelValue | None, Field(examples=[5])] = None
    """Saturated fat, g."""
    fibre_g: Annotated[LabelValue | None, Field(examples=["<1 g"])] = None
    """Dietary fibre, g."""
    sugars_g: Annotated[LabelValue | None, Field(examples=[0])] = None
    """Sugars, g."""
    protein_g: Annotated[LabelValue | None, Field(examples=[7])] = None
    """Protein, g."""
    sodium_mg: Annotated[LabelValue | None, Field(examples=[180])] = None
    """Sodium, mg."""
    polyols: PolyolAmounts | None = None
    """Polyols by kind; left out when the label states none."""
    count_polyols_as: dict[str, Share] = Field({}, examples=[{"maltitol": 0.8}])
    """Kind (`maltitol`, on a US label also `allulose`) to the share that counts as available carbohydrate, 0 to 1,
    in place of the documented one. Maltitol, and polyols of a kind not named, cannot be left out altogether."""
    read_zero_as: Annotated[Literal["upper bound", "zero"], Field(examples=["upper bound"])] = "upper bound"
    """How a 0, a trace or a "less than" of carbohydrate and sugars is read: as the most that may be printed so (a US
    0 g is anything under 0.5 g a serving), or as none. Of everything else it is read as none."""


class UsLabel(_PrintedLabel):
    """A US Nutrition Facts label: per serving, carbohydrate with its fibre, polyols and allulose.

    Values are numbers, or text as printed: `"0 g"`, `"<0.5 g"`, `"less than 1 g"`. What is not given stays missing.
    Numbers that cannot be true together, rounding allowed for, are accepted with a warning.
    """

    layout: Literal["US"]
    """Says that the label is laid out, and rounded, by 21 CFR 101.9."""
    serving: Annotated[Amount, Field(examples=["28 g"])]
    """What one serving weighs, as the label prints it beside the household measure: `28 g`."""
    total_carbohydrate_g: Annotated[LabelValue | None, Field(examples=["less than 1 g"])] = None
    """Total carbohydrate, g: fibre, sugar alcohols and allulose are in it."""
    trans_fat_g: Annotated[LabelValue | None, Field(examples=[0])] = None
    """Trans fat, g."""
    cholesterol_mg: Annotated[LabelValue | None, Field(examples=["<5 mg"])] = None
    """Cholesterol, mg."""
    allulose_g: Annotated[LabelValue | None, Field(examples=[4])] = None
    """Allulose, g: 0.4 kcal per g, and not counted as available carbohydrate."""
    potassium_mg: Annotated[LabelValue | None, Field(examples=[60])] = None
    """Potassium, mg."""
    calcium_mg: Annotated[LabelValue | None, Field(examples=[200])] = None
    """Calcium, mg."""
    iron_mg: Annotated[LabelValue | None, Field(examples=[0.4])] = None
    """Iron, mg."""
    vitamin_d_ug: Annotated[LabelValue | None, Field(examples=[2])] = None
    """Vitamin D, ug (printed as mcg)."""


class EuLabel(_PrintedLabel):
    """An EU nutrition declaration: per 100 g, 100 ml or portion; carbohydrate without fibre, polyols in it.

    Values are numbers, or text as printed: `"0 g"`, `"<0,5 g"`. What is not given stays missing. Numbers that cannot
    be true together, rounding allowed for, are accepted with a warning.
    """

    layout: Literal["EU"]
    """Says that the label is laid out by Regulation (EU) No 1169/2011 and rounded by the Commission's guidance."""
    per: Annotated[Amount, Field(examples=["100 g", "100 ml"])]
    """What the values are stated for: `100 g`, the weight of a portion, or `100 ml` with `density_g_per_ml`."""
    density_g_per_ml: Annotated[float | None, Field(ge=0.1, le=5, examples=[1.03])] = None
    """What 1 ml weighs, g; needed when `per` is a volume. The item may then be measured by volume as well."""
    energy_kj: Annotated[LabelValue | None, Field(examples=[1540])] = None
    """Printed energy, kJ. Where no kcal are printed they are taken from it, at 4.184 kJ to the kcal."""
    carbohydrate_g: Annotated[LabelValue | None, Field(examples=[3.2])] = None
    """Carbohydrate, g: polyols are in it, fibre is not, and nothing is taken off for fibre."""
    salt_g: Annotated[LabelValue | None, Field(examples=[1.1])] = None
    """Salt, g: 2.5 times the sodium. Where `sodium_mg` is given too, that is used."""


def _layout_of(label: object) -> str | None:
    """The variant of a label; None for a layout that is not known."""
    layout = label.get("layout", "") if isinstance(label, dict) else getattr(label, "layout", "")
    if not isinstance(layout, str):
        return None
    return {"": PLAIN_TAG, "US": US_TAG, "EU": EU_TAG}.get(layout)


def _as_any_of(schema: JsonDict) -> None:
    """That a label fits one variant at most shows in `layout`, which plain values lack: too fine for oneOf."""
    schema["anyOf"] = schema.pop("oneOf")


#: A named alias, so that the API's description and clients made from it have a name for the choice of three.
LabelSource = TypeAliasType(
    "LabelSource",
    Annotated[
        Annotated[PlainLabel, Tag(PLAIN_TAG)] | Annotated[UsLabel, Tag(US_TAG)] | Annotated[EuLabel, Tag(EU_TAG)],
        Discriminator(
            _layout_of,
            custom_error_type="layout",
            custom_error_message="The layout of a label is US or EU, or left out for plain values",
        ),
        Field(json_schema_extra=_as_any_of),
    ],
)
