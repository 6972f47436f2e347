"""Structured requests to every route, half of them spoilt: ``python structured.py [REQUESTS] [SEED]``.

They are made from the published schemas and from what the tables hold, and asked of the application in this process. No
answer may be a failure of the service or take half a second of a processor.
"""

from __future__ import annotations

import gc
import json
import random
import re
import sys
import time
from collections import Counter
from collections.abc import Callable
from typing import Any

from borewright.api import create_app
from borewright.contract.documents import published
from borewright.core import finishing, standards
from borewright.core.materials import part_material

REQUESTS, MOST_SECONDS, COLLECTED = 20_000, 0.5, 500
Json = dict[str, Any]
SCHEMAS: dict[str, Json] = {name: json.loads(text) for name, text in published.schemas_json().items()}
ROUTES = {
    "/v1/threads/resolve": "thread-request",
    "/v1/drills/recommend": "drill-request",
    "/v1/allowances": "allowance-request",
    "/v1/taps/recommend": "tap-request",
    "/v1/taps/decode": "tap-decode-request",
    "/v1/hole-specs": "hole-spec-request",
    "/v1/hole-specs/audit": "audit-request",
}
ACCEPTED = ("application/json", "*/*", "image/svg+xml", "application/xml", "application/x-ndjson", "text/csv", "x/y")
THREADS = [entry.designation for entry in standards.catalogue()]
FINISHES = [f"{entry.specification} {entry.finish_class}" for entry in finishing.catalogue()]
MATERIALS = [material.name for material in part_material.catalogue()]
MARKINGS = ["1/2-13 NC HSS G H3", "M8x1.25 HSS G D5", "Rc 1/2", "M8 6H FORMING", "H3", "D5", "ISO 2", "6HX", "+.005"]
DRILLS = ["27/64", "#7", "6.8 mm", ".5687 in", "F", "2", "1-1/4", "13.000001 mm"]
HARDNESS = [
    "28 HRC",
    "300 HB",
    "60 HRC",
    "1200 HV",
    "-5 HRC",
    "1e400 HB",
    "999999999 HV",
    "0 HB",
    "20-30 HRC",
    "100 HRB",
]
#: What a text of a field may be about, by the field's name.
WORDS = {
    "thread": THREADS, "size": ["1/2", "#10", "M8", "8", "M0.3", "4 1/2", "99999"],
    "system": ["unified", "iso_metric", "npt", "iso_228", "trapezoidal", "british_association", "acme"],
    "series": ["UNC", "UNF", "UN", "UNS", "UNJ"], "class": ["2B", "6H", "3B", "1A", "7H", "AZ"],
    "material": MATERIALS, "name": MATERIALS, "group": list("PMKNSHX"), "hardness": HARDNESS,
    "finish": FINISHES, "specification": FINISHES, "drills": DRILLS, "drill": DRILLS, "taps": MARKINGS,
    "tap": MARKINGS, "second_tap": MARKINGS, "marking": MARKINGS, "limit": MARKINGS,
    "grade": ["SAE J429 grade 8", "8.8", "A2-70", "grade 99"],
}  # fmt: skip
_UNITS = re.compile(r"\(\?:([^()]+)\) \*\$$")
NUMBERS = [0, -0.0, 1e-9, 1e-6, 0.001, 0.1, 0.5, 1, 2, 7, 12, 16, 60, 75, 100, 180, 2540, 1e6, -1, 0.1 + 0.2, 2**53]
#: One of them is needed, by the kind of hole.
DEPTHS = ("full_thread_depth", "thickness")
#: As JSON writes it; Python has no other name for most of them.
RAW = ["5e-324", "1e400", "-1e400", "1" + "0" * 400, "NaN", "-Infinity", "1e308", "0e99999", "true", "null", "[]", "{}"]
RAW += ['""', '" "', '"\\u0000"', '"\\ud83d\\ude00"', '"½"', "[[[]]]", '{"x":1}', '"' + "9" * 300 + '"', "-0", "1E+2"]


class Maker:
    """Bodies by chance. Args: ``spoilt``: one in so many values is none that the schema knows."""

    def __init__(self, seed: int) -> None:
        self.random, self.spoilt, self.raw = random.Random(seed), 0, list[str]()

    def body(self, schema: Json, *, spoilt: int) -> bytes:
        """A body as bytes; ``spoilt`` 0 = every value is one of the schema."""
        self.spoilt, self.raw = spoilt, []
        text = json.dumps(self._value(schema, schema, ""))
        for place, raw in enumerate(self.raw):
            text = text.replace(f'"raw {place} raw"', raw)
        return text.encode()

    def _value(self, schema: Json, whole: Json, name: str) -> object:
        if self.spoilt and self.random.randrange(self.spoilt) == 0:
            self.raw.append(self.random.choice(RAW))
            return f"raw {len(self.raw) - 1} raw"
        if "$ref" in schema:
            return self._value(whole["$defs"][schema["$ref"].rpartition("/")[2]], whole, name)
        if "anyOf" in schema:
            known = [one for one in schema["anyOf"] if one.get("type") != "null"]
            usual = known[0] if self.random.random() < 0.7 else self.random.choice(known)
            return self._value(usual, whole, name)
        if "enum" in schema:
            return self.random.choice(schema["enum"])
        kind = schema.get("type", "object")
        kind = kind if isinstance(kind, str) else kind[0]
        make: Callable[[Json, Json, str], object] = getattr(self, f"_{kind}")
        return make(schema, whole, name)

    def _object(self, schema: Json, whole: Json, name: str) -> Json:
        fields = schema.get("properties", {})
        needed = [*schema.get("required", []), *(DEPTHS if name == "hole" else ())]
        often = self.random.choice([0.05, 0.1, 0.3])
        asked = [one for one in fields if one in needed or self.random.random() < often] or list(fields)[:1]
        return {one: self._value(fields[one], whole, one) for one in asked}

    def _array(self, schema: Json, whole: Json, name: str) -> list[object]:
        most = min(schema.get("maxItems", 4), self.random.choice([1, 2, 4, 8, 40]))
        return [self._value(schema["items"], whole, name) for _ in range(self.random.randint(0, most))]

    def _string(self, schema: Json, whole: Json, name: str) -> str:
        units = _UNITS.search(schema.get("pattern", ""))
        if units is not None:
            unit = self.random.choice(units[1].split("|")).replace("\\", "")
            return f"{abs(self._number(schema, whole, name)):.6f} {unit if self.random.random() < 0.95 else 'furlong'}"
        word = str(self.random.choice(WORDS.get(name, ["KRP-4105-D1"])))
        if self.spoilt and self.random.random() < 0.3:
            place = self.random.randint(0, len(word))
            word = (
                word[:place]
                + self.random.choice(["", "0", "-", " ", "x", "½", "\x00", "é", "/", "1e9", "LH"])
                + word[place:]
            )
        return word

    def _number(self, schema: Json, whole: Json, name: str) -> float:
        least, most = schema.get("minimum", 0.0001), schema.get("maximum", 100)
        usual = self.random.choice([0.25, 0.5, 0.75, 1, 2, 8, 12, 20, 75, 118])
        return self.random.choice(
            [least, most, usual, usual, usual + self.random.random(), self.random.choice(NUMBERS)]
        )

    def _integer(self, schema: Json, whole: Json, name: str) -> int:
        return self.random.randint(schema.get("minimum", 0), min(schema.get("maximum", 9), 9))

    def _boolean(self, schema: Json, whole: Json, name: str) -> bool:
        return self.random.random() < 0.5


def asked(maker: Maker) -> tuple[str, bytes, dict[str, str]]:
    """A route, a body and headers."""
    route = maker.random.choice(list(ROUTES))
    schema, spoilt = SCHEMAS[ROUTES[route]], maker.random.choice([0, 0, 30, 8])
    body, form = maker.body(schema, spoilt=spoilt), "application/json"
    if route.startswith("/v1/hole-specs") and maker.random.random() < 0.15:
        bodies = [body, *(maker.body(schema, spoilt=spoilt) for _ in range(maker.random.randint(0, 5)))]
        route, lines = f"{route}/batch", maker.random.random() < 0.5
        body = b"\n".join(bodies) if lines else b'{"items":[%b]}' % b",".join(bodies)
        form = "application/x-ndjson" if lines else form
    accept = maker.random.choice(ACCEPTED) if maker.random.random() < 0.1 else "application/json"
    return route, body, {"Content-Type": form, "Accept": accept}


def run(requests: int, seed: int) -> tuple[Counter[tuple[str, int]], list[str]]:
    """Answers by route and status, and what was wrong: the seed makes the same requests again."""
    client, maker = create_app().test_client(), Maker(seed)
    found, wrong = Counter[tuple[str, int]](), list[str]()
    gc.disable()  # a worker collects what requests leave, never the tables and caches under them
    for number in range(requests):
        if number % COLLECTED == 0:
            gc.collect()
        route, body, headers = asked(maker)
        began = time.thread_time()
        answer = client.post(route, data=body, headers=headers)
        content = answer.get_data()
        seconds = time.thread_time() - began
        found[route, answer.status_code] += 1
        failed = answer.status_code >= 500 or b"internal_error" in content
        if failed or (number and seconds > MOST_SECONDS):
            wrong.append(f"{number}: {route} {headers} {answer.status_code} {seconds:.3f} s\n{body[:2000]!r}")
    return found, wrong


def main() -> int:
    requests, seed = (int(text) for text in (*sys.argv[1:], *(str(REQUESTS), "1")[len(sys.argv) - 1 :]))
    began = time.process_time()
    found, wrong = run(requests, seed)
    for (route, status), number in sorted(found.items()):
        print(f"{route:28} {status} {number:8,}")
    print(f"{found.total():,} requests in {time.process_time() - began:.0f} s of a processor")
    print(*wrong, sep="\n")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
