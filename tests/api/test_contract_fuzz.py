"""Contract fuzz: schemathesis makes requests from the published OpenAPI document and judges every answer.

Checks: no server error, every answer as documented (status, media type, schema, headers), requests that violate the
schema are refused. A request that follows its schema may still be impossible to make (422), so the check that it must
be accepted is off. The short run is seeded, and enumerates the values of a field once, not on every route that has
the field; the long run does, and looks for something new every time.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

SCHEMATHESIS = Path(sys.executable).with_name("schemathesis")
#: It has the fields of all requests for a hole.
AUDIT = "^/v1/hole-specs/audit$"
#: Routes whose bodies are made of the same fields as that of /v1/hole-specs/audit, some with a few more.
COVERED_BY_AUDIT = (
    "^/v1/(hole-specs|hole-specs/compare|part-plans|rework|.*/batch|drills/recommend|allowances)$"
    "|^/v1/(taps/recommend|threads/resolve)$"
)
#: A list of measurements beyond its limit is beyond the limit of bytes before, which this check takes for no refusal.
TOO_LONG_FIRST = "^/v1/shop-figures/fit$"


def fuzz(url: str, *more: str) -> None:
    done = subprocess.run(
        [
            SCHEMATHESIS,
            f"--config-file={Path(__file__).with_name('schemathesis.toml')}",
            "run",
            f"{url}/openapi.json",
            "--exclude-checks=positive_data_acceptance",
            "--generation-database=none",
            "--continue-on-failure",
            "--no-color",
            *more,
        ],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "SCHEMATHESIS_HOOKS": "media_type_hooks", "PYTHONPATH": str(Path(__file__).parent)},
    )
    assert done.returncode == 0, done.stdout[-8000:]


def test_short_fuzz(service_url):
    fuzz(service_url, "--max-examples=8", "--seed=40960", "--phases=examples,fuzzing")


def test_every_schema_is_covered_once(service_url):
    """Each bound of each field, broken and kept, but for those of an audit, which two judges try too."""
    left = f"--exclude-path-regex={AUDIT}|{COVERED_BY_AUDIT}|{TOO_LONG_FIRST}"
    fuzz(service_url, "--seed=40960", "--phases=coverage", left)


@pytest.mark.long
@pytest.mark.parametrize("routes", [AUDIT, COVERED_BY_AUDIT])
def test_every_schema_is_covered_on_every_route(service_url, routes):
    fuzz(service_url, "--seed=40960", "--phases=coverage", f"--include-path-regex={routes}")


@pytest.mark.long
def test_long_fuzz(service_url):
    fuzz(service_url, "--max-examples=8000")
