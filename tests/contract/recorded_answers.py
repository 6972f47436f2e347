"""Records 3,000 varied answers of the service and compares later ones with them, after a change of the house.

    python tests/contract/recorded_answers.py record FILE
    python tests/contract/recorded_answers.py compare FILE
    python tests/contract/recorded_answers.py release FILE   # the paragraph of the release notes on what changed

Versions, the names made of them and request ids are left out of the comparison. Asked are the holes of ``combinations``
and of ``varied_requests.json``, over the application itself, all routes and media types of an answer.
"""

from __future__ import annotations

import gzip
import json
import re
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from borewright.api import create_app

sys.path.insert(0, str(Path(__file__).parent))
from combinations import hole_spec
from release_changes import Changes

HOLES = 1_700
JSON = "application/json"
FORMS = (JSON, "image/svg+xml", "application/xml")
PARTS = {
    "/v1/threads/resolve": ("length_of_engagement",),
    "/v1/drills/recommend": ("method", "percent_thread", "objective", "material", "finish", "stock", "machine"),
    "/v1/allowances": ("finish",),
    "/v1/taps/recommend": ("hole", "material", "method", "finish", "stock", "tap_limits"),
}
VERSIONS = re.compile(
    r'"(spec_id|rules_version|tables_version|request_id)": ?"[^"]*"|<Version>[^<]*</Version>'
    r"|Made with tables \w+|\b(?:[0-9a-f]{32}|[0-9a-f]{12})\b"
)

Question = tuple[str, str, Mapping[str, Any]]


def questions() -> Iterator[Question]:
    """Path, media type and body of each request, always the same ones."""
    varied = json.loads((Path(__file__).parent / "varied_requests.json").read_text(encoding="utf-8"))
    for body in varied["holes"].values():
        yield from (("/v1/hole-specs", form, {**body, "explain": form == JSON}) for form in FORMS)
    yield "/v1/hole-specs/batch", "text/csv", {"items": [hole_spec(7_500_000 + seed) for seed in range(400)]}
    for seed in range(HOLES):
        body = hole_spec(7_000_000 + seed)
        yield "/v1/hole-specs", FORMS[seed // 2 % 7] if seed // 2 % 7 < len(FORMS) else JSON, body
        path = tuple(PARTS)[seed % len(PARTS)]
        taken = ("thread", "unit_system", "explain", "edition", *PARTS[path])
        yield path, JSON, {name: body[name] for name in taken if name in body}


def answers() -> Iterator[list[Any]]:
    """Each question with the status and the text of its answer, what names a version left out."""
    client = create_app().test_client()
    for path, form, body in questions():
        reply = client.post(path, json=body, headers={"Accept": form, "X-Request-Id": "recorded"})
        yield [path, form, body, reply.status_code, VERSIONS.sub("", reply.get_data(as_text=True))]


def record(file: Path) -> int:
    with gzip.open(file, "wt", encoding="utf-8") as lines:
        count = sum(1 for one in answers() if lines.write(json.dumps(one) + "\n"))
    print(count, "answers recorded")
    return 0


def compare(file: Path) -> int:
    """Prints each question whose answer differs, and where; 1 when there is one."""
    differing = count = 0
    with gzip.open(file, "rt", encoding="utf-8") as lines:
        for line, now in zip(lines, answers(), strict=True):
            before, count = json.loads(line), count + 1
            if before != json.loads(json.dumps(now)):
                differing += 1
                print(json.dumps(before[:3]), before[3], "->", now[3])
                print(_where(before[4], now[4]))
    print(count, "answers compared,", differing, "differ")
    return 1 if differing else 0


def release(file: Path) -> int:
    """Prints what a release says of the answers that it changed."""
    changes = Changes()
    with gzip.open(file, "rt", encoding="utf-8") as lines:
        for line, (path, form, body, status, text) in zip(lines, answers(), strict=True):
            before = json.loads(line)
            changes.add(path, form, body, tuple(before[3:5]), (status, text))
    print(changes.paragraph())
    return 0


def _where(before: str, now: str) -> str:
    at = next((i for i, (one, other) in enumerate(zip(before, now, strict=False)) if one != other), -1)
    return f"  before ...{before[max(0, at - 60) : at + 120]}...\n  now    ...{now[max(0, at - 60) : at + 120]}..."


if __name__ == "__main__":
    sys.exit({"record": record, "compare": compare, "release": release}[sys.argv[1]](Path(sys.argv[2])))
