"""The page that shows the API and runs its examples: Swagger UI from an installed package, started by our own script.

The page asks nothing of any other host, and its policy (CSP Level 3) would not let it: scripts and styles come from
files of this service only.
"""

from collections.abc import Mapping
from importlib.resources import files


def content_security_policy(style: str) -> str:
    """style: the source of the style sheet of the cards, since a card that the page opens inherits its policy."""
    return (
        f"default-src 'none'; script-src 'self'; style-src 'self' {style}; img-src 'self' data:; connect-src 'self'; "
        "frame-ancestors 'none'; base-uri 'none'; form-action 'none'"
    )


#: Each asset of the page: where it lies, and its media type. `fastapi_swagger` carries Swagger UI (Apache-2.0).
_ASSETS = {
    "swagger-ui-bundle.js": ("fastapi_swagger", "resources", "text/javascript"),
    "swagger-ui.css": ("fastapi_swagger", "resources", "text/css"),
    "start.js": ("service", "docs_assets", "text/javascript"),
    "page.css": ("service", "docs_assets", "text/css"),
}

PAGE = """<!DOCTYPE html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Larderline: the API, with examples to run</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="docs/swagger-ui.css">
<link rel="stylesheet" href="docs/page.css">
</head>
<body>
<main id="docs">This page is drawn by a script. The same as data: <a href="openapi.json">openapi.json</a></main>
<script src="docs/swagger-ui-bundle.js"></script>
<script src="docs/start.js"></script>
</body>
</html>
"""


def load_assets() -> Mapping[str, tuple[bytes, str]]:
    """File name to content and media type. Raises FileNotFoundError when the product is incomplete."""
    return {
        name: ((files(package) / folder / name).read_bytes(), media_type)
        for name, (package, folder, media_type) in _ASSETS.items()
    }
