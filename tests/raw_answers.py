"""A socket that answers with what a test says, byte for byte."""

from __future__ import annotations

import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def answering(*answers: bytes) -> Iterator[tuple[str, list[bytes]]]:
    """A socket that gives each connection the next raw answer and closes; yields its address and what it was asked."""
    asked: list[bytes] = []
    with socket.create_server(("127.0.0.1", 0)) as server:

        def serve() -> None:
            for answer in answers:
                connection, _ = server.accept()
                with connection:
                    asked.append(connection.recv(65536))
                    connection.sendall(answer)

        thread = threading.Thread(target=serve, daemon=True)
        thread.start()
        yield f"http://127.0.0.1:{server.getsockname()[1]}", asked
        thread.join(5)


def http(status: str, body: str, *headers: str) -> bytes:
    head = [f"HTTP/1.1 {status}", f"Content-Length: {len(body)}", "Connection: close", *headers]
    return ("\r\n".join(head) + "\r\n\r\n" + body).encode()
