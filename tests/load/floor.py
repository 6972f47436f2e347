"""The floor to compare with: bare Flask routes on the same server, which send as many bytes."""

import json
import os
from collections.abc import Callable, Iterator
from itertools import cycle
from pathlib import Path
from typing import IO

import orjson
from flask import Flask, Response, request

#: Sizes of the replies of single requests, each at an address of its own: /0, /1 ...
SIZES = [int(size) for size in os.environ.get("FLOOR_BYTES", "2").split(",")]
#: Lines of a batch's answer, which the floor writes again and again.
REPLIES = [orjson.loads(line) for line in Path(os.environ.get("FLOOR_REPLIES", os.devnull)).read_bytes().splitlines()]
PER_CHUNK = 10

app = Flask("floor")


def _sends(size: int) -> Callable[[], Response]:
    body = b"x" * size
    return lambda: Response(body, mimetype="application/json")


for place, size in enumerate(SIZES):
    app.add_url_rule(f"/{place}", str(place), _sends(size), methods=["POST"])


@app.post("/v1/hole-specs/batch")
def batch() -> Response:
    """Every line is parsed, and a reply written for it."""
    return Response(_written(_lines(request.stream)), mimetype="application/x-ndjson")


def _lines(stream: IO[bytes]) -> Iterator[bytes]:
    rest = b""
    while block := stream.read(65536):
        *whole, rest = (rest + block).split(b"\n")
        yield from whole


def _written(lines: Iterator[bytes]) -> Iterator[bytes]:
    waiting: list[bytes] = []
    for line, reply in zip(lines, cycle(REPLIES), strict=False):
        json.loads(line)
        waiting.append(orjson.dumps(reply))
        if len(waiting) == PER_CHUNK:
            yield b"\n".join(waiting) + b"\n"
            waiting = []
    yield b"".join(text + b"\n" for text in waiting)


@app.get("/health/ready")
def ready() -> Response:
    return Response(b"{}", mimetype="application/json")
