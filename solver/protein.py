"""The protein that counts: collagen is no more than a part of it, by default a fifth (common practice, no source).

With other protein P and collagen K, what counts is min(P + K, P / (1 - part)): a least amount of protein is two rows.
"""

from solver.collagen import is_collagen
from solver.foods import Food

#: The part of the protein that counts which collagen may make up, unless the brief says otherwise.
COLLAGEN_PART = 0.2


def collagen_protein_g(food: Food) -> float:
    """Protein of 100 g that is collagen's, g; inside a dish that of its ingredients. NaN where nobody knows."""
    if food.made is not None:
        return sum(collagen_protein_g(part.food) * part.grams / 100 for part in food.made.ingredients)
    return food.value("protein_g") if is_collagen(food) else 0.0


def counted_protein_g(protein_g: float, collagen_g: float, part: float) -> float:
    """What counts of a protein, g, of which collagen_g is collagen's; at most `part` of it may be. 1 counts all."""
    return protein_g if part >= 1 else min(protein_g, (protein_g - collagen_g) / (1 - part))
