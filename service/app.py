"""The composition root: everything that the service is made of is put together here, and nothing at import."""

from typing import Any

from fastapi import FastAPI

from service import handlers
from service.capacity import Capacity
from service.examples import examples_folder, load_examples
from service.planner import Solve, open_planner
from service.routes.foods import foods_router
from service.routes.health import health_router
from service.routes.plans import plans_router
from service.schemas.problem import MEDIA_TYPE
from service.settings import Settings
from service.translate.names import names_in_markdown
from solver.backends.base import Backend
from solver.catalogue import Catalogue
from solver.solve import solve as solve_brief

_DESCRIPTION = """
Picks how much of each pantry item goes into a dish so that the dish meets its energy, fat share, protein and
carbohydrate targets, in amounts that a kitchen can measure. Medical diets need professional oversight.

**What a target may be `of`.** Every name in g, mg or ug is also a nutrient that a label may state.

"""


def create_app(
    settings: Settings,
    *,
    backend: Backend | None = None,
    catalogue: Catalogue | None = None,
    solve: Solve = solve_brief,
) -> FastAPI:
    """The application. backend, catalogue, solve: in place of those that the settings name."""
    planner = open_planner(settings, backend=backend, catalogue=catalogue, solve=solve)
    capacity = Capacity(settings.solves_at_once, settings.solves_waiting)
    app = _Application(
        title="Larderline", version="1", description=_DESCRIPTION + names_in_markdown(), redirect_slashes=False
    )
    handlers.install(app)
    app.include_router(plans_router(planner, capacity, load_examples(examples_folder())))
    app.include_router(foods_router(planner.catalogue))
    app.include_router(health_router())
    return app


class _Application(FastAPI):
    """FastAPI, with refusals described as what they are: problem documents under their own media type."""

    def openapi(self) -> dict[str, Any]:
        """The OpenAPI document."""
        document = super().openapi()
        for operations in document["paths"].values():
            for operation in operations.values():
                _describe_refusals(operation["responses"])
        for unused in ("HTTPValidationError", "ValidationError"):
            document["components"]["schemas"].pop(unused, None)
        return document


def _describe_refusals(responses: dict[str, Any]) -> None:
    for status, response in list(responses.items()):
        content = response["content"]
        schema = content["application/json"]["schema"] if "application/json" in content else {}
        if schema == {"$ref": "#/components/schemas/ProblemDocument"}:
            content[MEDIA_TYPE] = content.pop("application/json")
        elif schema == {"$ref": "#/components/schemas/HTTPValidationError"}:
            del responses[status]  # the framework's own answer to parameters that are never refused here
