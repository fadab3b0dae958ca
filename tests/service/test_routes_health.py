import httpx2
import pytest

from solver.catalogue import Catalogue


def test_the_process_answers(client: httpx2.Client) -> None:
    response = client.get("/healthz")
    assert response.status_code == 200
    assert response.json() == {"status": "ok"}


def test_the_service_is_ready_with_its_table_and_its_solver(client: httpx2.Client, catalogue: Catalogue) -> None:
    ready = client.get("/readyz").json()
    assert ready.pop("solver_version")
    assert ready == {"status": "ready", "foods": len(catalogue), "solver": "highs"}


@pytest.mark.parametrize("path", ["/healthz", "/readyz"])
def test_health_is_never_kept(client: httpx2.Client, path: str) -> None:
    assert client.get(path).headers["cache-control"] == "no-store"
