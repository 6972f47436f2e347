"""Ten thousand requests of every kind to both lanes: not one answer differs in status, header or byte."""

from __future__ import annotations

import json
import random

import pytest
from borewright.api import create_app
from borewright.core import finishing, standards
from borewright.core.materials import part_material

REQUESTS = 10_000
#: The second time it comes from what was kept.
TIMES = 2
THREADS = [entry.designation for entry in standards.catalogue()]
FINISHES = [f"{entry.specification} {entry.finish_class}" for entry in finishing.catalogue()]
MATERIALS = [material.name for material in part_material.catalogue()]
LENGTHS = [0.1, 0.25, 0.5, 1, 2, 12, 40, "3/8 in", "12 mm", "1-1/4 in", -1, "x"]
FIELDS = {
    "id": ["KRP-1", "", None, 5, "é" * 70, "a\u2028b"],
    "objective": ["chart", "acceptance", "least_torque", "x"],
    "unit_system": ["inch", "metric", "x"],
    "explain": [True, False, "yes"],
    "detail": ["full", "short", "x"],
    "method": ["cut", "form", "mill"],
    "percent_thread": [50, 75, 1e308, {"min": 60, "max": 75}],
    "thickness": [1],
}
HEADERS = [
    {},
    {"Accept-Encoding": "gzip"},
    {"Accept-Encoding": "gzip;q=0.5, br"},
    {"Accept": "*/*"},
    {"Accept": "application/json"},
    {"Accept": "text/html"},
    {"Traceparent": "00-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-01"},
    {"Content-Encoding": ""},
    {"Content-Encoding": '"gzip"'},
    {"Content-Type": "application/json; charset=utf-8"},
]


class _Closed:
    """A lane that takes nothing."""

    def answer(self, *_):
        return None


def made(chance: random.Random) -> bytes:
    """The body of a request, one in ten with bytes changed."""
    hole = {"type": chance.choice(["blind", "through"]), "full_thread_depth": chance.choice(LENGTHS)}
    if hole["type"] == "through" or chance.random() < 0.2:
        hole["thickness"] = chance.choice(LENGTHS)
    body: dict[str, object] = {"thread": chance.choice(THREADS), "hole": hole}
    if chance.random() < 0.6:
        body["material"] = chance.choice(MATERIALS)
    if chance.random() < 0.4:
        body["finish"] = chance.choice(FINISHES)
    for field in chance.sample(sorted(FIELDS), chance.choice((0, 0, 1, 2))):
        body[field] = chance.choice(FIELDS[field])
    written = bytearray(json.dumps(body, ensure_ascii=chance.random() < 0.5).encode())
    if chance.random() < 0.1:
        at = chance.randrange(len(written))
        written[at : at + chance.randrange(3)] = chance.choice(
            (b"", b'"', b"\xff", b"NaN", b'{"a":1,"a":2}', b"[" * 50)
        )
    return bytes(written)


@pytest.mark.long
def test_both_lanes_answer_alike():
    lane, flask = create_app(), create_app()
    flask.wsgi_app._lane = _Closed()
    clients = lane.test_client(), flask.test_client()
    chance = random.Random(17)
    told: dict[int, int] = {}
    for _ in range(REQUESTS):
        body, headers = made(chance), chance.choice(HEADERS)
        sent = {"Content-Type": "application/json", "X-Request-Id": "same", **headers}
        for _ in range(TIMES):
            first, second = (
                (reply.status_code, sorted(reply.headers.items()), reply.data)
                for reply in (client.post("/v1/hole-specs", data=body, headers=sent) for client in clients)
            )
            assert first == second, (body, headers)
        told[first[0]] = told.get(first[0], 0) + 1
    print(told)
    assert set(told) <= {200, 400, 406, 415, 422}
    assert min(told[200], told[422]) > REQUESTS / 10
