"""The page beside the cooking tables: what each file holds, and how many pairs were left out for which reason."""

from collections import Counter
from collections.abc import Sequence

from reference_data.from_pairs.exclusions import why_excluded
from reference_data.from_pairs.matching import Pair

_PAGE = """# The cooking table

Written by `python -m reference_data.build_cooking`; do not edit. A pair is a raw and a cooked row of the same food in
the SR28 table. Protein is conserved, so yield is raw over cooked protein, and the fat retained is yield times cooked
over raw fat. Yield and retention are capped at 1; what was sampled is kept beside it.

| file | what it holds |
|---|---|
| `pairs.csv` | every pair: kind, method, yield, fat retention; measured, or excluded and why |
| `estimates.csv` | a row for each kind and method: the median, the 90 % interval, and the pairs behind both |
| `mixes.csv` | mince and sausage by form: yield, spread, range of fat |
| `curves.csv` | the lines of each form: fat kept is the least of a m + (gain - loss) f, m the raw mass and f its fat |
| `curve_rows.csv` | the rows that each curve was fitted to, with what it says of them |

"fat retention factor" is a ratio: nine times in ten the truth lies between the value over it and the value times it.

## What was kept

{kept} of {all} pairs. Excluded:

| why | pairs |
|---|---|
{reasons}
"""


def summary(pairs: Sequence[Pair]) -> str:
    """The page as Markdown."""
    reasons = Counter(why_excluded(pair) for pair in pairs)
    kept = reasons.pop("", 0)
    rows = "\n".join(f"| {why} | {count} |" for why, count in sorted(reasons.items()))
    return _PAGE.format(kept=kept, all=len(pairs), reasons=rows)
