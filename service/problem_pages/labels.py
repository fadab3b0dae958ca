"""Problems of labels: statements that cannot be read together."""

from collections.abc import Mapping
from types import MappingProxyType

from service.problem_pages.page import Page

LABELS: Mapping[str, Page] = MappingProxyType(
    {
        "both_carbohydrates": Page(
            "Carbohydrate is stated twice",
            "The label states carbohydrate with its fibre and without.",
            "One label prints one of them; together they leave two meanings.",
            "Keep the one that the label prints: US labels the total, EU labels the available.",
        ),
        "exceeds_weight": Page(
            "More than the whole weight",
            "A nutrient weighs more than the food that the label states it for.",
            "100 g of food cannot hold 120 g of fat; the unit or the reference amount has slipped.",
            "Compare the value, and the weight that it is stated for, with the label.",
        ),
        "exceeds_carbohydrate": Page(
            "More fibre than carbohydrate",
            "The label states more fibre than the carbohydrate that includes it.",
            "A part cannot be more than the whole.",
            "If the label states carbohydrate without fibre, as EU labels do, name it available_carbohydrate_g.",
        ),
        "unreadable_label_value": Page(
            "A value that no label prints",
            "A value of a label is a text that cannot be read as one.",
            'Read are a number, and what labels print: "0 g", "12 g", "<0.5 g", "less than 1 g", "trace".',
            'Write the number alone, or the text as printed. On a US label "1,200 mg" is twelve hundred, on an EU '
            'label "1,5 g" is one and a half.',
        ),
        "wrong_unit": Page(
            "A value in another unit",
            "A value of a label is written in a unit that its field does not have.",
            "Grams cannot be read as kcal, nor kJ as kcal: labels count the two with factors of their own.",
            "Write the value in the field's unit, which ends its name, or in the field that has the unit.",
        ),
        "unknown_polyol": Page(
            "A polyol that is not known",
            "`count_polyols_as` names a kind of polyol that is not in the table.",
            "A share that counts for nothing would be forgotten without a word.",
            "Use erythritol, maltitol, xylitol, sorbitol, mannitol, isomalt, lactitol, other or allulose.",
        ),
        "never_left_out": Page(
            "A polyol that is never left out",
            "`count_polyols_as` counts nothing of maltitol, or of polyols whose kind is not stated.",
            "Maltitol raises blood glucose, and an unknown kind may be maltitol.",
            "Give a share above 0, or leave the kind out to count the documented share.",
        ),
    }
)
