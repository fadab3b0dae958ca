"""Traces by OpenTelemetry, where its SDK is installed and its own variables (`OTEL_...`) ask for them.

A span for each request, in the caller's trace if it sent one (W3C Trace Context), and one below it for each stage. They
say what the log says, never an address, a query, or anything of a brief or of an exception.
"""

import logging
import threading
import time
from collections.abc import Callable, Mapping
from importlib.metadata import entry_points

from opentelemetry.trace import Span, SpanKind, StatusCode, TracerProvider, set_span_in_context
from opentelemetry.trace.propagation.tracecontext import TraceContextTextMapPropagator
from starlette.datastructures import Headers
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from service.request_log import METHODS
from service.stages import Stages

#: Where the packages of OpenTelemetry for Python list their exporters of traces.
_EXPORTERS = "opentelemetry_traces_exporter"

#: What `otlp` stands for here: the one protocol of it that the extra `trace` brings along.
_OTLP = "otlp_proto_http"

#: OpenTelemetry specification, "OpenTelemetry Protocol Exporter": either one says where traces go.
_ENDPOINTS = ("OTEL_EXPORTER_OTLP_TRACES_ENDPOINT", "OTEL_EXPORTER_OTLP_ENDPOINT")

#: Seconds that the last spans have to leave when the service ends.
_LAST_SPANS_S = 3.0

_FAULT = 500

_log = logging.getLogger("larderline")


def exporter_asked_for(environ: Mapping[str, str]) -> str | None:
    """The name of the exporter, by the specification's general SDK configuration; None where nobody asks for one.

    There `otlp` to this machine is the default; here somebody has to name an exporter or an endpoint.
    """
    named = environ.get("OTEL_TRACES_EXPORTER", "").strip().lower()
    if environ.get("OTEL_SDK_DISABLED", "").strip().lower() == "true" or named == "none":
        return None
    if not named and not any(environ.get(endpoint) for endpoint in _ENDPOINTS):
        return None
    return _OTLP if named in {"", "otlp"} else named


def traced(app: ASGIApp, environ: Mapping[str, str]) -> ASGIApp:
    """The application with traces, or as it is. What cannot be traced is answered all the same."""
    name = exporter_asked_for(environ)
    if name is None:
        return app
    try:
        provider, close = _provider(name)
    except Exception as error:  # noqa: BLE001  whatever it is, the service goes on without traces
        _log.warning("no traces: see the extra `trace`", extra={"exporter": name, "error": type(error).__name__})
        return app
    return Traced(app, provider, close)


def _provider(exporter: str) -> tuple[TracerProvider, Callable[[], None]]:
    """Where spans go, and what ends it. Raises what the packages raise that are asked for, and are not installed."""
    from opentelemetry.sdk import resources, trace  # noqa: PLC0415  the framework brings the interface, not the SDK
    from opentelemetry.sdk.trace.export import BatchSpanProcessor  # noqa: PLC0415

    (found,) = entry_points(group=_EXPORTERS, name=exporter)
    resource = resources.Resource.create()
    if str(resource.attributes[resources.SERVICE_NAME]).startswith("unknown_service"):
        resource = resource.merge(resources.Resource({resources.SERVICE_NAME: "larderline"}))
    provider = trace.TracerProvider(resource=resource, shutdown_on_exit=False)
    provider.add_span_processor(BatchSpanProcessor(found.load()()))
    return provider, provider.shutdown


class Traced:
    """Pure ASGI; around the layer of the log, which says how the request is called there.

    close: sends what has not been sent yet, when the service ends.
    """

    def __init__(self, app: ASGIApp, provider: TracerProvider, close: Callable[[], None]) -> None:
        self._app, self._close = app, close
        self._tracer = provider.get_tracer("larderline")
        self._context_of = TraceContextTextMapPropagator().extract

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """See ASGI."""
        if scope["type"] != "http":
            try:
                await self._app(scope, receive, send)
            finally:
                self._let_the_last_leave()
            return
        span = self._tracer.start_span("request", self._context_of(dict(Headers(scope=scope))), SpanKind.SERVER)
        scope.setdefault("state", {})["trace_id"] = f"{span.get_span_context().trace_id:032x}"
        status = 0

        async def noting(message: Message) -> None:
            nonlocal status
            status = message.get("status", status)
            await send(message)

        try:
            await self._app(scope, receive, noting)
        finally:
            self._end(span, scope, status)

    def _end(self, span: Span, scope: Scope, status: int) -> None:
        ended, ended_ns = time.perf_counter(), time.time_ns()
        told = _told(scope, status)
        span.update_name(" ".join(str(told[name]) for name in ("http.request.method", "http.route") if name in told))
        span.set_attributes(told)
        if "error.type" in told:
            span.set_status(StatusCode.ERROR)
        stages: Stages = scope["state"].get("stages", Stages())
        for name, began, then in stages.until(ended):
            at = ended_ns - round((ended - began) * 1e9)
            stage = self._tracer.start_span(name, set_span_in_context(span), start_time=at)
            stage.end(at + round((then - began) * 1e9))
        span.end(ended_ns)

    def _let_the_last_leave(self) -> None:
        """Who collects them may be gone; nobody waits longer for that than so long."""
        leaving = threading.Thread(target=self._close, daemon=True)
        leaving.start()
        leaving.join(_LAST_SPANS_S)


def _told(scope: Scope, status: int) -> dict[str, str | int]:
    """Names of OpenTelemetry's semantic conventions for HTTP where they have one; `_OTHER` is one of theirs too."""
    state = scope["state"]
    told = {
        "http.request.method": scope["method"] if scope["method"] in METHODS else "_OTHER",
        "http.route": getattr(scope.get("route"), "path", None),
        "http.response.status_code": status,
        "error.type": str(status) if status >= _FAULT or not status else None,
        "larderline.request_id": state.get("request_id"),
        "larderline.outcome": state.get("outcome"),
        "larderline.body_bytes": state.get("body_bytes"),
    }
    return {name: value for name, value in told.items() if value is not None}
