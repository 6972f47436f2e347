"""Contract fuzz: schemathesis makes requests from the published OpenAPI document and judges every answer.

Checks: no server error, every answer as documented (status, media type, schema, headers), requests that violate the
schema are refused. A request that follows its schema may still be impossible to make (422), so the check that it must
be accepted is off. The short run is seeded; the long run looks for something new every time.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

SCHEMATHESIS = Path(sys.executable).with_name("schemathesis")


def fuzz(url: str, *more: str) -> None:
    done = subprocess.run(
        [
            SCHEMATHESIS,
            "run",
            f"{url}/openapi.json",
            "--exclude-checks=positive_data_acceptance",
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
    fuzz(service_url, "--max-examples=8", "--seed=40960", "--phases=examples,coverage,fuzzing")


@pytest.mark.long
def test_long_fuzz(service_url):
    fuzz(service_url, "--max-examples=8000")
