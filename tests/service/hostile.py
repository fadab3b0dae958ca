"""What hostile bodies are made of, and what has to come back."""

import socket
from typing import Any
from urllib.parse import urlsplit

import httpx2

from service.problem_pages import PAGES

Document = dict[str, Any]

#: Stands in every body, and may stand in no answer.
MARK = "qqmarkqq"

HUGE = b"9" * 5000


def nested(levels: int, opening: bytes = b"[", closing: bytes = b"]") -> bytes:
    return opening * levels + b'"' + MARK.encode() + b'"' + closing * levels


def problem(response: httpx2.Response, status: int) -> Document:
    assert response.status_code == status, response.text
    assert response.headers["content-type"] == "application/problem+json"
    document: Document = response.json()
    assert document["status"] == status
    assert len(document["problems"]) <= 100
    codes = [document["type"].rpartition("/")[2], *(each["code"] for each in document["problems"])]
    assert [code for code in codes if code not in PAGES] == []
    return document


def answer_to(server: str, request_bytes: bytes) -> bytes:
    """Everything that comes back until the answer's end."""
    address = urlsplit(server)
    with socket.create_connection((address.hostname or "", address.port or 80), timeout=5) as connection:
        connection.sendall(request_bytes)
        answer = b""
        while chunk := connection.recv(10_000):
            answer += chunk
            head, end, body = answer.partition(b"\r\n\r\n")
            length = head.lower().partition(b"content-length: ")[2].partition(b"\r\n")[0]
            if end and length and len(body) >= int(length):
                break
    return answer
