"""Structured requests to every route, half of them spoilt: ``python structured.py [REQUESTS] [SEED]``.

They are made from the published schemas and from what the tables hold, and asked of the application in this process. No
answer may be a failure of the service or take half a second of a processor.
"""

from __future__ import annotations

import gc
import sys
import time
from collections import Counter

from borewright.api import create_app
from flask.testing import FlaskClient
from made_values import DEMO, THREADS, Json, Maker
from structured_requests import asked

REQUESTS, MOST_SECONDS, COLLECTED = 20_000, 0.5, 500
#: Specifications that are kept, to be compared.
KEPT = 40


def specifications(client: FlaskClient) -> list[Json]:
    """Replies of plain holes."""
    hole = {"type": "blind", "full_thread_depth": "12 mm"}
    told = (client.post("/v1/hole-specs", json={"thread": thread, "hole": hole}) for thread in THREADS[::20])
    return [answer.json for answer in told if answer.status_code == 200][:KEPT]


def shop_figures(client: FlaskClient) -> Json:
    """What the demo's shop measured, as the service hands it back."""
    measured = (DEMO / "measurements.csv").read_bytes()
    answer = client.post("/v1/shop-figures/fit", data=measured, content_type="text/csv")
    assert answer.status_code == 200, answer.json
    found: Json = answer.json["shop_figures"]
    return found


def run(requests: int, seed: int) -> tuple[Counter[tuple[str, int]], list[str]]:
    """Answers by route and status, and what was wrong: the seed makes the same requests again."""
    client = create_app().test_client()
    maker = Maker(seed, specifications(client), shop_figures(client))
    found, wrong = Counter[tuple[str, int]](), list[str]()
    gc.disable()  # a worker collects what requests leave, never the tables and caches under them
    for number in range(requests):
        if number % COLLECTED == 0:
            gc.collect()
        path, body, headers = asked(maker)
        route = path.partition("?")[0]
        began = time.process_time()
        try:
            answer = client.open(path, method="GET" if body is None else "POST", data=body, headers=headers)
            content = answer.get_data()
        except Exception as error:  # it comes through where the service would answer 500
            wrong.append(f"{number}: {path} {headers} {error!r}\n{(body or b'')[:2000]!r}")
            continue
        seconds = time.process_time() - began
        found[route, answer.status_code] += 1
        failed = answer.status_code >= 500 or (b'"code":"internal_error"' in content and route.startswith("/v1"))
        if failed or (number and seconds > MOST_SECONDS):
            wrong.append(f"{number}: {path} {headers} {answer.status_code} {seconds:.3f} s\n{(body or b'')[:2000]!r}")
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
