"""Problems of who eats, and of what is never left to a programme."""

from collections.abc import Mapping
from types import MappingProxyType

from service.problem_pages.page import Page

EATER: Mapping[str, Page] = MappingProxyType(
    {
        "therapy_without_prescription": Page(
            "A child's therapy without a prescription",
            "The brief is a ketogenic therapy for a child, or for somebody whose age is not said, and nobody "
            "prescribed its numbers.",
            "Ratio, energy and protein of such a therapy come from a clinic that knows the child and watches its "
            "blood; a wrong number does harm, so none is chosen here.",
            'Ask the clinic. With its numbers, give them as targets and say "prescribed": true; for an adult, give '
            "the age.",
        ),
        "prescription_incomplete": Page(
            "A prescription with a gap",
            "The brief says that its numbers are prescribed, and the ratio, the energy or the protein is not among its "
            "targets.",
            "What the clinic did not say would be chosen here, and for a child's therapy nothing is.",
            "Give ketogenic_ratio, energy_kcal and protein_g of the meal as targets without a priority.",
        ),
        "curing_salt_varies": Page(
            "Curing salt with an open amount",
            "A curing salt is in the pantry without a fixed amount.",
            "Nitrite is poisonous, and its amount is fixed by regulation: 156 ppm in minced meat in the United States, "
            "which is 0.25 % of a mix with 6.25 % nitrite. It is never changed to meet a target.",
            "Fix it with `already_in`, or with `at_least` and `at_most` alike, at what your local code and the "
            "label of the mix allow for this much meat.",
        ),
    }
)
