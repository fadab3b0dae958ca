# Two stages: one that has what building needs, and one that has what running needs. Build from the project's folder:
#   docker build -t larderline .
FROM docker.io/library/python:3.11-slim-bookworm AS build
ENV PIP_NO_CACHE_DIR=1 PIP_DISABLE_PIP_VERSION_CHECK=1
WORKDIR /src
COPY build.lock container.lock ./
RUN python3 -m venv /build && /build/bin/pip install --require-hashes -r build.lock \
 && python3 -m venv /app && /app/bin/pip install --require-hashes --only-binary :all: -r container.lock
COPY pyproject.toml README.md ./
COPY openapi/examples openapi/examples
COPY reference_data reference_data
COPY solver solver
COPY service service
# The project itself is built without the network; what only other systems or installing needs stays behind.
RUN /build/bin/pip wheel --no-deps --no-build-isolation --wheel-dir /wheels . \
 && /app/bin/pip install --no-deps --no-index /wheels/*.whl \
 && /app/bin/pip uninstall --yes pip setuptools \
 && rm -rf /app/lib/python3.11/site-packages/pulp/solverdir/cbc/win /app/lib/python3.11/site-packages/pulp/solverdir/cbc/osx \
 && find /app -type d \( -name tests -o -name __pycache__ \) -prune -exec rm -rf {} + \
 && /app/bin/python -m compileall -q /app/lib

FROM docker.io/library/python:3.11-slim-bookworm
COPY --from=build /app /app
ENV PATH=/app/bin:/usr/local/bin:/usr/bin:/bin PYTHONDONTWRITEBYTECODE=1 PYTHONUNBUFFERED=1 \
    LARDERLINE_HOST=0.0.0.0 LARDERLINE_PORT=8000 LARDERLINE_WORKERS=2
USER 65532:65532
EXPOSE 8000
STOPSIGNAL SIGTERM
HEALTHCHECK --interval=10s --timeout=3s --start-period=15s --retries=3 \
  CMD ["python3", "-c", "import urllib.request as u; u.urlopen('http://127.0.0.1:8000/readyz', timeout=2)"]
ENTRYPOINT ["larderline"]
CMD ["serve"]
