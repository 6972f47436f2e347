"""What the client adds to http.client and json, in processor time of the caller."""

from __future__ import annotations

import http.client
import json
import time
from contextlib import closing
from typing import Any

from borewright_client import Client
from rows import Row, at_most
from serving import HOLE, JSON


def client(*, calls: int, port: int) -> list[Row]:
    """The same call of the service on ``port`` in both ways, the better of three rounds each."""
    body = json.dumps(HOLE)
    with closing(http.client.HTTPConnection("127.0.0.1", port, timeout=10)) as connection:

        def plain() -> Any:
            connection.request("POST", "/v1/hole-specs", body, JSON)
            return json.loads(connection.getresponse().read())

        with Client(f"http://127.0.0.1:{port}") as ours:
            times = [(timed(plain, calls), timed(lambda: ours.hole_spec(HOLE), calls)) for _ in range(3)]
    floor, mine = min(pair[0] for pair in times), min(pair[1] for pair in times)
    figure = f"{mine / calls * 1e6:.0f} / {floor / calls * 1e6:.0f} us"
    return [at_most("client call, processor / http.client and json", figure, mine / floor, 1.8)]


def timed(call: Any, times: int) -> float:
    call()
    began = time.process_time()
    for _ in range(times):
        call()
    return time.process_time() - began
