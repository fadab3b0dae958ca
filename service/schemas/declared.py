"""Numbers that are declared for a dish, what an audit finds in them, and nutrition numbers as a label prints them."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.amounts import Amount
from service.schemas.base import Incoming, Outgoing
from service.schemas.labels import LabelValue


class DeclaredDistribution(Incoming):
    """Percent of macro energy, as declared."""

    fat: Annotated[LabelValue | None, Field(examples=[75])] = None
    """From fat, %."""
    protein: Annotated[LabelValue | None, Field(examples=[20])] = None
    """From protein, %."""
    carbohydrate: Annotated[LabelValue | None, Field(examples=["5 %"])] = None
    """From carbohydrate, %."""
    alcohol: Annotated[LabelValue | None, Field(examples=[0])] = None
    """From alcohol, %; left out where none is declared."""


class DeclaredFactors(Incoming):
    """Energy factors of the dish's own, kcal per g."""

    protein: Annotated[float, Field(ge=0, le=20, examples=[4.27])]
    """Per g of protein."""
    fat: Annotated[float, Field(ge=0, le=20, examples=[9.02])]
    """Per g of fat."""
    carbohydrate: Annotated[float, Field(ge=0, le=20, examples=[3.87])]
    """Per g of carbohydrate with its fibre."""
    alcohol: Annotated[float, Field(ge=0, le=20, examples=[6.93])] = 6.93
    """Per g of alcohol."""


class DeclaredBody(Incoming):
    """Numbers that somebody declares for the dish; they are audited against each other and against ours.

    Each is a number, or text as printed: `"0 g"`, `"<0.5 g"`, `"12.0 g"`. Its decimals say how far it was rounded, so
    write `"4.0 g"` for a 4 that is exact to a tenth. What is not given is not doubted.
    """

    per: Annotated[Amount, Field(examples=["portion", "100 g"])] = "portion"
    """What the numbers are declared for: `portion`, `batch`, or a weight as eaten such as `100 g`."""
    layout: Annotated[Literal["US", "EU"] | None, Field(examples=["US"])] = None
    """The label whose rounding rules and tolerances hold; left out: rounded at the last digit, both tolerances."""
    energy_kcal: Annotated[LabelValue | None, Field(examples=[650])] = None
    """Energy, kcal."""
    energy_kj: Annotated[LabelValue | None, Field(examples=[2700])] = None
    """Energy, kJ; counted with factors of its own."""
    energy_from_fat_kcal: Annotated[LabelValue | None, Field(examples=[490])] = None
    """Energy that comes from fat, kcal."""
    energy_from_protein_kcal: Annotated[LabelValue | None, Field(examples=[140])] = None
    """Energy that comes from protein, kcal."""
    energy_from_carbohydrate_kcal: Annotated[LabelValue | None, Field(examples=[20])] = None
    """Energy that comes from carbohydrate, kcal."""
    protein_g: Annotated[LabelValue | None, Field(examples=[35])] = None
    """Protein, g."""
    fat_g: Annotated[LabelValue | None, Field(examples=[54])] = None
    """Fat, g."""
    saturated_fat_g: Annotated[LabelValue | None, Field(examples=[22])] = None
    """Saturated fat, g."""
    trans_fat_g: Annotated[LabelValue | None, Field(examples=[0])] = None
    """Trans fat, g."""
    total_carbohydrate_g: Annotated[LabelValue | None, Field(examples=[6])] = None
    """Carbohydrate with its fibre, g: how US labels state it. Not together with `available_carbohydrate_g`."""
    available_carbohydrate_g: Annotated[LabelValue | None, Field(examples=[4])] = None
    """Carbohydrate without fibre, g: how EU labels state it. Not together with `total_carbohydrate_g`."""
    fibre_g: Annotated[LabelValue | None, Field(examples=[2])] = None
    """Dietary fibre, g."""
    sugars_g: Annotated[LabelValue | None, Field(examples=["less than 1 g"])] = None
    """Sugars, g."""
    polyols_g: Annotated[LabelValue | None, Field(examples=[5])] = None
    """Polyols but erythritol, g: part of the carbohydrate."""
    erythritol_g: Annotated[LabelValue | None, Field(examples=[8])] = None
    """Erythritol, g: part of the carbohydrate."""
    allulose_g: Annotated[LabelValue | None, Field(examples=[4])] = None
    """Allulose, g: part of the carbohydrate."""
    alcohol_g: Annotated[LabelValue | None, Field(examples=[0])] = None
    """Alcohol, g; counts as none where it is left out."""
    salt_g: Annotated[LabelValue | None, Field(examples=[1.8])] = None
    """Salt, g: 2.5 times the sodium."""
    sodium_mg: Annotated[LabelValue | None, Field(examples=[720])] = None
    """Sodium, mg."""
    potassium_mg: Annotated[LabelValue | None, Field(examples=[480])] = None
    """Potassium, mg."""
    cholesterol_mg: Annotated[LabelValue | None, Field(examples=[120])] = None
    """Cholesterol, mg."""
    energy_distribution_percent: DeclaredDistribution | None = None
    """Percent of macro energy from each; left out where none is declared."""
    fat_share_percent: Annotated[LabelValue | None, Field(examples=["75 %"])] = None
    """Percent of macro energy that comes from fat."""
    ketogenic_ratio: Annotated[LabelValue | None, Field(examples=["1.4 : 1"])] = None
    """Grams of fat to one gram of protein and carbohydrate together."""
    factors_kcal_per_g: DeclaredFactors | None = None
    """Energy factors of the dish's own, where they are known; energy is then counted with them as well."""


FindingCode = Literal[
    "energy_differs",
    "energy_basis",
    "fibre_taken_off",
    "kj_converted",
    "kj_against_kcal",
    "energy_from_one_differs",
    "heavier_than_food",
    "parts_above_whole",
    "salt_differs",
    "distribution_sum",
    "share_differs",
    "share_against_ratio",
    "ratio_differs",
    "outside_us_tolerance",
    "outside_eu_tolerance",
    "differs_from_computed",
]


class FindingAnswer(Outgoing):
    """Declared numbers that do not go together, or not with the dish. Which of them is wrong nobody knows."""

    code: Annotated[FindingCode, Field(examples=["energy_differs"])]
    """What kind of finding it is. `energy_basis` is no fault: it says by which ways of counting the energy fits."""
    about: Annotated[str, Field(examples=["energy_kcal"])]
    """The field of the declaration, with a point before a field inside another; `per` for the weight."""
    declared: Annotated[str, Field(examples=["280 kcal"])]
    """What was declared."""
    follows: Annotated[str, Field(examples=["252 kcal (general)"])]
    """What follows instead, by each way of counting."""
    by: Annotated[float, Field(examples=[28])]
    """How far apart the two are as they stand, in `unit`."""
    unit: Annotated[str, Field(examples=["kcal"])]
    """The unit of `by`: of shares `percentage points`, of ratios `1`."""
    rounding_explains: Annotated[bool, Field(examples=[False])]
    """Some true amounts would be printed as all the numbers of this finding are."""
    fits: Annotated[list[str], Field(examples=[["regulation"]])]
    """The ways of counting that the declared number fits, rounding allowed for."""
    text: Annotated[str, Field(examples=["energy is declared as 280 kcal, but comes to 252 kcal (general)."])]
    """The finding in a sentence."""


class NutritionLineAnswer(Outgoing):
    """One line of nutrition numbers, rounded as a label prints it."""

    name: Annotated[str, Field(examples=["total_carbohydrate_g"])]
    """The quantity, with its unit."""
    title: Annotated[str, Field(examples=["Total Carbohydrate"])]
    """As the label calls it."""
    text: Annotated[str | None, Field(examples=["less than 1 g"])]
    """As the label prints it; null when the amount is not known, which is never printed as 0."""
    value: Annotated[float | None, Field(examples=[0.62])]
    """The same before rounding, in the unit of `name`; null likewise."""
