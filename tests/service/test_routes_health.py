import httpx2


def test_the_process_answers(client: httpx2.Client) -> None:
    response = client.get("/healthz")
    assert response.status_code == 200
    assert response.json() == {"status": "ok"}
