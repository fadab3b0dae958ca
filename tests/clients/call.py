"""An app of somebody else, in Python: three briefs sent with the generated client. Prints what it read, as JSON.

Arguments: the address of the service, then the files of a brief with a plan, one with a conflict, and a refused one.
"""

import json
import sys
from pathlib import Path

from larderline_client import Client
from larderline_client.api.plans import make_plan
from larderline_client.models import BriefBody, ConflictAnswer, PlanAnswer, ProblemDocument


def main(address: str, *files: str) -> None:
    client = Client(base_url=address)
    briefs = [BriefBody.from_dict(json.loads(Path(file).read_text())) for file in files]
    plan, conflict, refused = (make_plan.sync(client=client, body=brief) for brief in briefs)
    assert isinstance(plan, PlanAnswer)
    assert isinstance(conflict, ConflictAnswer)
    assert isinstance(refused, ProblemDocument)
    read = {
        "grams": {each.name: each.grams for each in plan.quantities},
        "kcal": plan.portion.energy_kcal,
        "in_conflict": [[each.kind, each.text] for each in conflict.members],
        "to_mend": [[each.pointer, each.code] for each in refused.problems],
    }
    sys.stdout.write(json.dumps(read))


if __name__ == "__main__":
    main(*sys.argv[1:])
