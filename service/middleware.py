"""The layers around the application, from the innermost to the outermost. A request passes them in reverse."""

import os

from starlette.middleware.cors import CORSMiddleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.types import ASGIApp

from service.head import HeadAsGet
from service.headers import DefaultHeaders
from service.key_required import KeyRequired
from service.keys import open_keys
from service.metrics import Metrics
from service.request_log import REQUEST_ID, RequestLog
from service.revalidation import Revalidation
from service.settings import Settings
from service.tracing import traced

#: Answers smaller than this gain nothing by compression, bytes.
SMALLEST_COMPRESSED = 1000

#: A good bargain: level 9 takes several times as long to save a few percent more.
_COMPRESSION_LEVEL = 5


def layered(app: ASGIApp, settings: Settings, metrics: Metrics) -> ASGIApp:
    """The application inside all its layers. The hash of an answer is taken before it is compressed."""
    app = Revalidation(app)
    app = GZipMiddleware(app, minimum_size=SMALLEST_COMPRESSED, compresslevel=_COMPRESSION_LEVEL)
    app = HeadAsGet(app)
    keys = open_keys(settings)
    if keys:
        app = KeyRequired(app, keys)
    app = DefaultHeaders(app)
    if settings.cors_origins:
        app = _cors(app, settings.cors_origins)
    return traced(RequestLog(app, metrics), os.environ)


def _cors(app: ASGIApp, origins: tuple[str, ...]) -> ASGIApp:
    return CORSMiddleware(
        app,
        allow_origins=origins,
        allow_methods=("GET", "POST", "DELETE"),
        allow_headers=("Authorization", "Content-Type", "Prefer", "Last-Event-ID", REQUEST_ID, "traceparent"),
        expose_headers=(REQUEST_ID, "ETag", "Retry-After", "Location", "Preference-Applied"),
    )
