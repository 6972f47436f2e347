"""The floor to compare with: a bare Flask route on the same server that returns as many bytes."""

import os

from flask import Flask, Response

BODY = b"x" * int(os.environ["FLOOR_BYTES"])

app = Flask("floor")


@app.post("/v1/hole-specs")
def hole_specs() -> Response:
    return Response(BODY, mimetype="application/json")


@app.get("/health/ready")
def ready() -> Response:
    return Response(b"{}", mimetype="application/json")
