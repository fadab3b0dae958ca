"""The composition root: everything that the service is made of is put together here, and nothing at import."""

from pathlib import Path
from typing import Any

from fastapi import FastAPI
from fastapi.telemetry import TelemetryConfig
from starlette.types import ASGIApp

from reference_data import reference_folder
from service import handlers
from service.cards.page import open_pages
from service.described import describe
from service.examples import examples_of
from service.metrics import Metrics
from service.middleware import layered
from service.planner import Solve, open_planner
from service.refusal_examples import refusal_example
from service.routes.breakdowns import breakdowns_router
from service.routes.cooking import cooking_router
from service.routes.docs import docs_router
from service.routes.foods import foods_router
from service.routes.health import health_router
from service.routes.metrics import metrics_router
from service.routes.plans import plans_router
from service.routes.problems import problems_router
from service.routes.reach import reach_router
from service.routes.reworks import reworks_router
from service.routes.safe_temperatures import safe_temperatures_router
from service.routes.start import start_router
from service.routes.work import work_router
from service.schemas.problem import MEDIA_TYPE
from service.settings import Settings
from service.translate.cautions import open_temperatures
from service.translate.names import names_in_markdown
from service.translate.to_cooking import cooking_by
from service.work.examples import show_examples
from service.work.follow import Followers
from service.work.run import Runner
from solver.backends.base import Backend
from solver.catalogue import Catalogue
from solver.solve import solve as solve_brief

_DESCRIPTION = """
Picks how much of each pantry item goes into a dish so that the dish meets its energy, fat share, protein and
carbohydrate targets, in amounts that a kitchen can measure. Medical diets need professional oversight.

**What a target may be `of`.** Every name in g, mg or ug is also a nutrient that a label may state.

"""

#: Groups of operations by the job they do, in the order of the documentation page.
_GROUPS: list[dict[str, Any]] = [
    {"name": "plans", "description": "Make a plan. Begin here: choose an example and press Execute."},
    {"name": "dishes", "description": "The numbers of a dish as it is, and an audit of those that are declared."},
    {"name": "foods", "description": "Find reference foods, and read what one is made of."},
    {
        "name": "work",
        "description": "Follow a plan that takes long, asked for with the header `Prefer: respond-async`.",
    },
    {"name": "health", "description": "For whoever keeps the service running."},
]


def create_app(
    settings: Settings,
    *,
    backend: Backend | None = None,
    catalogue: Catalogue | None = None,
    solve: Solve = solve_brief,
    metrics: Metrics | None = None,
    work: Path | None = None,
) -> FastAPI:
    """The application. backend, catalogue, solve: in place of those that the settings name. metrics: of all workers.

    work: the folder where they keep what is asked for later; None where nothing can be.
    """
    metrics = metrics or Metrics()
    planner = open_planner(settings, backend=backend, catalogue=catalogue, solve=solve)
    runner = Runner(settings, metrics, work)
    capacity = runner.capacity
    app = _Application(
        settings,
        metrics,
        title="Larderline",
        version="1",
        description=_DESCRIPTION + names_in_markdown(),
        redirect_slashes=False,
        docs_url=None,
        redoc_url=None,
        openapi_tags=_GROUPS,
        generate_unique_id_function=lambda route: route.name,
        telemetry=_NO_TELEMETRY,
    )
    pages = open_pages(str(Path(__file__).parent / "cards" / "templates"))
    app.state.pages = pages
    app.state.runner = runner
    handlers.install(app)
    briefs, dishes = examples_of(), examples_of("breakdowns")
    app.include_router(start_router(briefs, dishes))
    app.include_router(docs_router(pages))
    app.include_router(plans_router(planner, runner, briefs))
    app.include_router(reach_router(planner, runner, examples_of("reach")))
    app.include_router(reworks_router(planner, runner, examples_of("reworks")))
    app.include_router(work_router(runner, Followers(runner, settings.followers_limit)))
    app.include_router(breakdowns_router(planner, capacity, dishes))
    app.include_router(foods_router(planner.catalogue, planner.search))
    cooking_of = cooking_by(planner.reference.cooking)
    app.include_router(cooking_router(planner.catalogue, planner.search, cooking_of))
    app.include_router(safe_temperatures_router(open_temperatures(reference_folder())))
    app.include_router(health_router(planner, capacity))
    app.include_router(problems_router(settings))
    app.include_router(metrics_router(metrics))
    return app


#: The framework's own traces and logs would tell addresses, queries and what exceptions say; see `tracing` for ours.
_NO_TELEMETRY: TelemetryConfig = {"tracing": False, "metrics": False, "logs": False, "auto_configure": False}


class _Application(FastAPI):
    """FastAPI inside our layers, with refusals described as what they are: problem documents of their own type."""

    def __init__(self, settings: Settings, metrics: Metrics, **described: Any) -> None:  # noqa: ANN401  what FastAPI takes
        super().__init__(**described)
        self._settings, self._metrics = settings, metrics

    def build_middleware_stack(self) -> ASGIApp:
        """The framework's own layers inside ours, so that ours see the answers to faults as well."""
        return layered(super().build_middleware_stack(), self._settings, self._metrics)

    def openapi(self) -> dict[str, Any]:
        """The OpenAPI document."""
        document = super().openapi()
        for operations in document["paths"].values():
            for operation in operations.values():
                _describe_refusals(
                    operation["responses"], has_body="requestBody" in operation, of_work="work" in operation["tags"]
                )
        for unused in ("HTTPValidationError", "ValidationError"):
            document["components"]["schemas"].pop(unused, None)
        describe(document)
        show_examples(document)
        return document


def _describe_refusals(responses: dict[str, Any], *, has_body: bool, of_work: bool) -> None:
    for status, response in list(responses.items()):
        content = response.get("content", {})
        schema = content["application/json"]["schema"] if "application/json" in content else {}
        if schema == {"$ref": "#/components/schemas/ProblemDocument"}:
            example = refusal_example(int(status), response["description"], has_body=has_body, of_work=of_work)
            content[MEDIA_TYPE] = {**content.pop("application/json"), "example": example}
        elif schema == {"$ref": "#/components/schemas/HTTPValidationError"}:
            del responses[status]  # the framework's own answer to parameters that are never refused here
