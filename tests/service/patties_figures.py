"""The figures of openapi/examples/patties-spooned-back.json, typed in: what the hand reading is worked with.

SR28 rows are from reference_data/sr28 (composition.csv, standard_errors.csv, measures.csv), the curve of a broiled
patty from reference_data/cooking (curves.csv, mixes.csv). Nothing here is asked of the product.
"""

KCAL, KJ = (4, 9, 4), (17, 37, 17)  # per g protein, fat, carbohydrate with its fibre: 4-9-4 and 17-37-17

#: In 100 g: protein, fat, carbohydrate by difference, fibre.
BEEF = (17.17, 20.00, 0.00, 0.0)  # sr28:23572, ground beef of 20 % fat, raw
EGG = (12.56, 9.51, 0.72, 0.0)  # sr28:01123, whole egg, raw
ONION = (1.10, 0.10, 9.34, 1.7)  # sr28:11282, onions, raw
TALLOW = (0.00, 100.00, 0.00, 0.0)  # sr28:04001, beef tallow
CHEESE = (7 / 0.28, 9 / 0.28, 0.5 / 0.28, 0.0)  # the label, of 28 g; it states no fibre

#: Standard errors in 100 g, where the table has them; that of onion's fibre (0.048) moves no energy on this basis.
BEEF_PROTEIN_ERROR = 0.172  # 23572; its fat has none
EGG_PROTEIN_ERROR, EGG_FAT_ERROR = 0.102, 0.115  # 01123
ONION_PROTEIN_ERROR, ONION_FAT_ERROR = 0.036, 0.005  # 11282

#: Whose fat, and whose carbohydrate (that of egg and onion is by difference), has no stated error; the label's has.
UNSTATED = ("ground beef", "tallow", "egg", "onion")

#: Half of a 90 % interval of a normal distribution, in standard errors.
NORMAL_90 = 1.645

#: What a US label of whole grams rounds away either way, and the last digit of its 0.5 g of carbohydrate; of 28 g.
HALF_GRAM, HALF_TENTH = 0.5 / 0.28, 0.05 / 0.28

#: 21 CFR 101.9(g), quoted second hand: up to 20 % more fat, up to 20 % less protein and carbohydrate.
TOLERATED = 0.2

EGG_LARGE_G = 50  # measures.csv, 01123, "large"
TEASPOON_G = 12.8 / 3  # measures.csv, 04001, "tbsp" 12.8 g
TALLOW_CUP_G = 205  # the same, "cup"

#: What the text may say beside the grams of onion; measures.csv, 11282.
ONION_MEASURES_G = {"1 small": 70, "1/2 cup, sliced": 57.5, "2 small": 140, "1 cup, sliced": 115}

POUND_G = 453.59237

#: Common practice, no source: a spoon finds at least this part of what ran out.
SPOONABLE = 0.8

#: curves.csv, broiled patty: fat kept is the least of a m + b f, m what holds fat and f the fat in it; the
#: third line is 0.1512 (m - f).
CURVE = ((0.0, 1.0), (0.0507, 0.4107), (0.1512, -0.1512))

#: What holds fat in a mix is its fat, and of the rest what its protein makes flesh of, at this protein g per g lean
#: flesh: raw mince has 0.205 to 0.225 per gram that is no fat (SR28 23557 and 13498). So all of the beef, and of egg
#: and onion a part.
LEAN_PROTEIN = 0.20

YIELD_AT_NO_FAT, YIELD_LOST_PER_FAT = 0.8398, 0.9235  # mixes.csv, broiled patty
YIELD_HALF, KEPT_HALF = 0.0781, 0.0100  # the same, half of the 90 % intervals, g per g raw
CURVE_ROWS = 11  # mixes.csv; curve_rows.csv lists them
LEAST_FAT, MOST_FAT = 0.0195, 0.3000  # fat of the mixes that the curve was fitted to, g per g

#: With more than this part of egg and onion the curve is a guess, its intervals half as wide again (our choice).
OTHER_PART, WIDER = 0.15, 1.5
