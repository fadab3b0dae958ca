"""The nutrients Larderline knows: INFOODS tagname, UCUM unit and the name used in briefs and answers.

Tagnames and numbers are those of the nutrient definition file of USDA SR28; CHOAVLDF (available
carbohydrate by difference) is INFOODS's and is derived, not read. ENERC without a suffix means kJ in several
national tables and is never used.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Nutrient:
    """name: field name with its unit; tagname: INFOODS; unit: UCUM; sr28_number: None when derived."""

    name: str
    tagname: str
    unit: str
    title: str
    sr28_number: int | None


NUTRIENTS: tuple[Nutrient, ...] = (
    Nutrient("energy_kcal", "ENERC_KCAL", "kcal", "energy as stated by the source", 208),
    Nutrient("protein_g", "PROCNT", "g", "protein", 203),
    Nutrient("fat_g", "FAT", "g", "fat", 204),
    Nutrient("total_carbohydrate_g", "CHOCDF", "g", "carbohydrate, fibre included", 205),
    Nutrient("available_carbohydrate_g", "CHOAVLDF", "g", "available carbohydrate", None),
    Nutrient("fibre_g", "FIBTG", "g", "dietary fibre", 291),
    Nutrient("sugars_g", "SUGAR", "g", "sugars", 269),
    Nutrient("alcohol_g", "ALC", "g", "alcohol (ethanol)", 221),
    Nutrient("water_g", "WATER", "g", "water", 255),
    Nutrient("ash_g", "ASH", "g", "ash", 207),
    Nutrient("saturated_fat_g", "FASAT", "g", "saturated fatty acids", 606),
    Nutrient("monounsaturated_fat_g", "FAMS", "g", "monounsaturated fatty acids", 645),
    Nutrient("polyunsaturated_fat_g", "FAPU", "g", "polyunsaturated fatty acids", 646),
    Nutrient("trans_fat_g", "FATRN", "g", "trans fatty acids", 605),
    Nutrient("cholesterol_mg", "CHOLE", "mg", "cholesterol", 601),
    Nutrient("sodium_mg", "NA", "mg", "sodium", 307),
    Nutrient("potassium_mg", "K", "mg", "potassium", 306),
    Nutrient("calcium_mg", "CA", "mg", "calcium", 301),
    Nutrient("magnesium_mg", "MG", "mg", "magnesium", 304),
    Nutrient("phosphorus_mg", "P", "mg", "phosphorus", 305),
    Nutrient("iron_mg", "FE", "mg", "iron", 303),
    Nutrient("zinc_mg", "ZN", "mg", "zinc", 309),
    Nutrient("copper_mg", "CU", "mg", "copper", 312),
    Nutrient("manganese_mg", "MN", "mg", "manganese", 315),
    Nutrient("selenium_ug", "SE", "ug", "selenium", 317),
    Nutrient("vitamin_a_rae_ug", "VITA_RAE", "ug", "vitamin A, retinol activity equivalents", 320),
    Nutrient("retinol_ug", "RETOL", "ug", "retinol (preformed vitamin A)", 319),
    Nutrient("vitamin_c_mg", "VITC", "mg", "vitamin C", 401),
    Nutrient("thiamin_mg", "THIA", "mg", "thiamin (B1)", 404),
    Nutrient("riboflavin_mg", "RIBF", "mg", "riboflavin (B2)", 405),
    Nutrient("niacin_mg", "NIA", "mg", "niacin (B3)", 406),
    Nutrient("pantothenic_acid_mg", "PANTAC", "mg", "pantothenic acid (B5)", 410),
    Nutrient("vitamin_b6_mg", "VITB6A", "mg", "vitamin B6", 415),
    Nutrient("folate_dfe_ug", "FOLDFE", "ug", "folate, dietary folate equivalents", 435),
    Nutrient("vitamin_b12_ug", "VITB12", "ug", "vitamin B12", 418),
    Nutrient("choline_mg", "CHOLN", "mg", "choline", 421),
    Nutrient("vitamin_d_ug", "VITD", "ug", "vitamin D (D2 + D3)", 328),
    Nutrient("vitamin_e_mg", "TOCPHA", "mg", "vitamin E (alpha-tocopherol)", 323),
    Nutrient("vitamin_k_ug", "VITK1", "ug", "vitamin K1 (phylloquinone)", 430),
)

COLUMN: dict[str, int] = {nutrient.name: column for column, nutrient in enumerate(NUTRIENTS)}
