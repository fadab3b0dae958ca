"""The README of the food table, written by the build so that its counts cannot go stale."""

from collections import Counter
from collections.abc import Sequence

from reference_data.from_sr28.ascii_files import FoodRow, Release
from reference_data.from_sr28.checks import Finding
from reference_data.from_sr28.refuse import CORRECTIONS
from reference_data.from_sr28.selection import why_dropped

_OPENING = """# The SR28 food table

Written by `python -m reference_data.build`; do not edit. Amounts are per 100 g of edible portion, in the unit that each
column names, printed as the release prints them; an empty cell is a value that the release does not have.

| file | what it holds |
|---|---|
| `foods.csv` | description, group, refuse as purchased, the food's own energy factors |
| `food_groups.csv` | the groups of the release |
| `composition.csv` | one row a food, one column a nutrient (INFOODS tagname and unit) |
| `standard_errors.csv` | the same shape: the standard error of the mean, where the release gives one |
| `measures.csv` | household measures: so many of a unit weigh so many grams |
| `refuse_audit.csv` | refuse that was corrected, and why |
| `audit.csv` | what looks wrong and was left as it is |
"""

_CHECKS = """
## What was audited

`refuse_audit.csv` corrects {corrections} percents, each from the release's own items or sibling rows. `audit.csv`
lists what could not be corrected from the release itself. Carbohydrate in SR28 is a difference, so it gathers the
errors of water, protein, fat and ash: cheddar has 3.1 g of it and 0.5 g of sugars. Foods without fibre count all
carbohydrate as available.
"""


def summary(
    release: Release, foods: Sequence[FoodRow], audit: Sequence[Finding], *, measures: int, dropped_measures: int
) -> str:
    """The README's text: the files, what was kept and dropped, what the audit found."""
    return (
        _OPENING
        + f"\n## What was kept\n\n{len(foods)} of {len(release.foods)} foods and {measures} measures. Dropped:\n\n"
        + _dropped(release, dropped_measures)
        + "\n"
        + _groups(release, foods)
        + _CHECKS.format(corrections=len(CORRECTIONS))
        + "\n"
        + _table(("check", "findings"), [*Counter(finding.check for finding in audit).items()])
    )


def _dropped(release: Release, dropped_measures: int) -> str:
    reasons = Counter(map(why_dropped, release.foods))
    rows = [(reason.value, count) for reason, count in reasons.items() if reason is not None]
    return _table(("why", "rows"), [*sorted(rows), ("measures of kept foods that name a brand", dropped_measures)])


def _groups(release: Release, foods: Sequence[FoodRow]) -> str:
    of, kept = Counter(food.group for food in release.foods), Counter(food.group for food in foods)
    return _table(("group", "kept", "of"), [(title, kept[code], of[code]) for code, title in release.groups.items()])


def _table(header: Sequence[str], rows: Sequence[tuple[object, ...]]) -> str:
    lines = [header, ["---"] * len(header), *rows]
    return "".join(f"| {' | '.join(map(str, line))} |\n" for line in lines)
