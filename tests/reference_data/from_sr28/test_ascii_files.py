import pytest

from reference_data.from_sr28.ascii_files import DEFINITIONS, FOODS, GROUPS, VALUES, WEIGHTS, read_release
from solver.nutrients import NUTRIENTS

DEFINED = "".join(
    f"~{n.sr28_number}~^~{n.unit.replace('ug', 'µg')}~^~{n.tagname}~^~{n.title}~^~2~^~1~\r\n"
    for n in NUTRIENTS
    if n.sr28_number is not None
)
FOOD = "~01~^~0100~^~Baker\N{RIGHT SINGLE QUOTATION MARK}s  cheese ~^~~^~~^~~^~~^~Rind~^4^~~^6.38^4.27^^3.87\r\n"
VALUE = "~01~^~204~^20.00^3^0.120^~1~^~~^~~^~~^^^^^^^~~^01/2015^\r\n~01~^~210~^1.00^3^^~1~^~~^~~^~~^^^^^^^~~^^\r\n"


def files(**changed: str) -> dict[str, bytes]:
    texts = {
        FOODS: changed.get("foods", FOOD),
        GROUPS: "~0100~^~Dairy and Egg Products~\r\n",
        DEFINITIONS: changed.get("definitions", DEFINED),
        VALUES: changed.get("values", VALUE),
        WEIGHTS: '~01~^1^.5^~cup, 1" cubes~^66.0^^\r\n',
    }
    return {name: text.encode("cp1252") for name, text in texts.items()}


def test_texts_are_tidied_and_numbers_stay_as_printed() -> None:
    release = read_release(files())
    (food,) = release.foods
    assert food.description == "Baker\N{RIGHT SINGLE QUOTATION MARK}s cheese"
    assert (food.refuse, food.nitrogen_factor, food.fat_factor) == ("4", "6.38", "")
    assert release.values == {"01": {204: "20.00"}}
    assert release.standard_errors == {"01": {204: "0.120"}}
    assert (release.measures["01"][0].amount, release.measures["01"][0].unit) == (".5", 'cup, 1" cubes')


def test_a_line_with_a_field_too_few_is_refused_with_its_number() -> None:
    with pytest.raises(ValueError, match="line 2 has 13 fields instead of 14"):
        read_release(files(foods=FOOD + FOOD.replace("^3.87", "")))


def test_a_nutrient_in_another_unit_than_ours_is_refused() -> None:
    with pytest.raises(ValueError, match="nutrient 307"):
        read_release(files(definitions=DEFINED.replace("~307~^~mg~", "~307~^~g~")))
