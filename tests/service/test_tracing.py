"""What a trace tells, to an exporter in memory; and that there is none unless somebody asks for one."""

import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import httpx2
import pytest
from fastapi.testclient import TestClient
from opentelemetry.sdk.trace import ReadableSpan, TracerProvider
from opentelemetry.sdk.trace.export import SimpleSpanProcessor
from opentelemetry.sdk.trace.export.in_memory_span_exporter import InMemorySpanExporter
from opentelemetry.trace import SpanKind, StatusCode

from service.app import create_app
from service.settings import Settings
from service.tracing import Traced, exporter_asked_for
from solver.backends.base import Backend
from solver.catalogue import Catalogue
from tests.service.conftest import REPOSITORY
from tests.service.test_faults import LIES, LyingBackend
from tests.service.test_request_log import TRACEPARENT

Document = dict[str, Any]


class Service:
    """One in this process, with its spans."""

    def __init__(self, catalogue: Catalogue, work: Path, backend: Backend | None = None) -> None:
        self._exporter = InMemorySpanExporter()
        provider = TracerProvider()
        provider.add_span_processor(SimpleSpanProcessor(self._exporter))
        app = create_app(Settings(), catalogue=catalogue, backend=backend, work=work)
        self.client = TestClient(Traced(app, provider, provider.shutdown), raise_server_exceptions=False)

    def spans(self) -> tuple[ReadableSpan, list[ReadableSpan]]:
        """Of the last request, and of its stages."""
        *stages, request = self._exporter.get_finished_spans()
        self._exporter.clear()
        return request, stages


@pytest.fixture
def service(catalogue: Catalogue, tmp_path: Path) -> Iterator[Service]:
    service = Service(catalogue, tmp_path)
    with service.client:
        yield service


def test_a_request_goes_on_in_its_callers_trace_and_its_stages_follow_one_another(
    service: Service, salmon: Document
) -> None:
    headers = {"traceparent": TRACEPARENT, "X-Request-ID": "mine"}
    length = len(service.client.post("/v1/plans", json=salmon, headers=headers).request.read())
    request, stages = service.spans()
    assert request.context is not None
    assert request.parent is not None
    assert f"00-{request.context.trace_id:032x}-{request.parent.span_id:016x}-01" == TRACEPARENT
    assert (request.name, request.kind, request.status.status_code) == (
        "POST /v1/plans",
        SpanKind.SERVER,
        StatusCode.UNSET,
    )
    assert request.attributes == {
        "http.request.method": "POST",
        "http.route": "/v1/plans",
        "http.response.status_code": 200,
        "larderline.request_id": "mine",
        "larderline.outcome": "plan",
        "larderline.body_bytes": length,
    }
    assert [stage.name for stage in stages] == ["parse", "wait", "solve", "render"]
    assert all(stage.parent == request.context for stage in stages)
    assert all(one.end_time == next_one.start_time for one, next_one in pairwise(stages))
    assert request.end_time == stages[-1].end_time
    times = [request.start_time or 0, *(stage.start_time or 0 for stage in stages), request.end_time or 0]
    assert times == sorted(times)


def test_a_trace_of_its_own_begins_where_the_caller_has_none(service: Service) -> None:
    for given in ({}, {"traceparent": TRACEPARENT.upper()}):
        service.client.get("/healthz", headers=given)
        assert service.spans()[0].parent is None


def test_the_stages_of_a_dish_and_of_work_that_is_followed_are_told(service: Service, salmon: Document) -> None:
    dish = json.loads((REPOSITORY / "openapi" / "examples" / "breakdowns" / "loaf-by-energy.json").read_text())
    service.client.post("/v1/breakdowns", json=dish)
    assert [stage.name for stage in service.spans()[1]] == ["parse", "wait", "solve", "render"]
    service.client.post("/v1/plans", json=salmon, headers={"Prefer": "respond-async"})
    assert [stage.name for stage in service.spans()[1]] == ["parse", "follow"]


def test_a_trace_holds_nothing_of_a_brief_of_an_address_or_of_a_query(service: Service, salmon: Document) -> None:
    salmon["title"] = salmon["pantry"][0]["name"] = "zanzibar"
    client = service.client
    asked: tuple[Callable[[], httpx2.Response], ...] = (
        lambda: client.post("/v1/plans?zanzibar", json=salmon),
        lambda: client.post("/v1/plans", json={**salmon, "zanzibar": 1}),
        lambda: client.post("/v1/plans", content="zanzibar", headers={"Content-Type": "application/json"}),
        lambda: client.get("/v1/foods?query=zanzibar"),
        lambda: client.get("/v1/foods/zanzibar"),
        lambda: client.request("ZANZIBAR", "/zanzibar"),
    )
    for ask in asked:
        assert ask().status_code
        request, stages = service.spans()
        told = "".join(span.to_json() for span in (request, *stages))
        assert "zanzibar" not in told.lower()


def test_a_fault_is_told_and_not_what_the_exception_says(
    catalogue: Catalogue, salmon: Document, tmp_path: Path
) -> None:
    service = Service(catalogue, tmp_path, LyingBackend(LIES["has a fault"]))
    with service.client as client:
        client.post("/v1/plans", json=salmon)
    request, stages = service.spans()
    assert request.status.status_code is StatusCode.ERROR
    assert (request.attributes or {})["error.type"] == "500"
    assert request.events == ()
    assert "secret" not in "".join(span.to_json() for span in (request, *stages))


# OpenTelemetry specification, "Environment Variable Specification": general SDK configuration, and exporter selection.
@pytest.mark.parametrize(
    ("environ", "exporter"),
    [
        ({}, None),
        ({"OTEL_SERVICE_NAME": "kitchen"}, None),
        ({"OTEL_EXPORTER_OTLP_ENDPOINT": "http://collector:4318"}, "otlp_proto_http"),
        ({"OTEL_EXPORTER_OTLP_TRACES_ENDPOINT": "http://collector:4318/v1/traces"}, "otlp_proto_http"),
        ({"OTEL_TRACES_EXPORTER": "otlp"}, "otlp_proto_http"),
        ({"OTEL_TRACES_EXPORTER": "console"}, "console"),
        ({"OTEL_TRACES_EXPORTER": "none", "OTEL_EXPORTER_OTLP_ENDPOINT": "http://collector:4318"}, None),
        ({"OTEL_TRACES_EXPORTER": "console", "OTEL_SDK_DISABLED": "true"}, None),
    ],
)
def test_the_standard_variables_say_whether_and_how(environ: dict[str, str], exporter: str | None) -> None:
    assert exporter_asked_for(environ) == exporter


def test_an_exporter_that_is_not_installed_stops_nothing_and_is_said(
    catalogue: Catalogue, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    monkeypatch.setenv("OTEL_TRACES_EXPORTER", "pigeon")
    with TestClient(create_app(Settings(), catalogue=catalogue)) as client:
        assert client.get("/healthz").status_code == 200
    assert [record.message for record in caplog.records if record.levelname == "WARNING"] == [
        "no traces: see the extra `trace`"
    ]


def ran(script: str, **environ: str) -> str:
    """What a process of its own prints."""
    done = subprocess.run(
        [sys.executable, "-c", script],
        cwd=REPOSITORY,
        env={**os.environ, **environ},
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


_ASKED = """
from fastapi.testclient import TestClient
from service.app import create_app
from service.settings import Settings
with TestClient(create_app(Settings())) as client:
    client.get("/healthz")
"""


def test_spans_leave_by_the_exporter_that_is_named_before_the_service_ends() -> None:
    told = json.loads(ran(_ASKED, OTEL_TRACES_EXPORTER="console"))
    assert told["name"] == "GET /healthz"
    assert told["resource"]["attributes"]["service.name"] == "larderline"


#: The service without any variable; then with a tracer of somebody else's in the same process.
_UNASKED = """
import sys
from fastapi.testclient import TestClient
from service.app import create_app
from service.settings import Settings
with TestClient(create_app(Settings())) as client:
    client.get("/healthz")
    assert not [name for name in sys.modules if name.startswith("opentelemetry.sdk")]
    from opentelemetry import trace
    from opentelemetry.sdk.trace import TracerProvider
    from opentelemetry.sdk.trace.export import SimpleSpanProcessor
    from opentelemetry.sdk.trace.export.in_memory_span_exporter import InMemorySpanExporter
    exporter = InMemorySpanExporter()
    trace.set_tracer_provider(TracerProvider())
    trace.get_tracer_provider().add_span_processor(SimpleSpanProcessor(exporter))
    client.get("/v1/foods?query=salmon")
    assert exporter.get_finished_spans() == (), "the framework would tell the query"
"""


def test_unasked_nothing_is_traced_and_the_sdk_is_not_even_loaded() -> None:
    assert ran(_UNASKED) == ""
