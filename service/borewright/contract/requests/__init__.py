"""The requests of API v1: each schema checks the body of a request and makes of it what the domain takes.

What an audit (`audit`) and the columns of a CSV (`csv_columns`) need is loaded by those who ask for it.
"""

from .bodies import ALLOWANCE, DECODE, DRILL, HOLE_SPEC, TAP, THREAD
from .request import Asked, Body, Detail, RequestSchema

__all__ = [
    "ALLOWANCE",
    "DECODE",
    "DRILL",
    "HOLE_SPEC",
    "TAP",
    "THREAD",
    "Asked",
    "Body",
    "Detail",
    "RequestSchema",
]
