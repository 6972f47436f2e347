"""The fault suite with every service on 64 MiB of files, after a reload, or under 512 MiB of addresses.

``python tests/load/in_surroundings.py [pytest arguments]``: some quarter of an hour; ends with 1 where a test failed.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parents[2]
#: As :mod:`conftest` of all tests knows them.
NAMES = ("64 MiB for files", "reloaded", "512 MiB of addresses")
#: The tests that start real services and break them, or what they stand on.
SUITE = (
    *("tests/load/test_faults.py", "tests/load/test_surroundings.py", "tests/load/test_slow_crowds.py"),
    *("tests/load/test_balancer.py", "tests/load/test_million.py", "tests/load/test_raw_fuzz.py"),
    *("tests/api/test_server.py", "tests/api/test_slow_callers.py", "tests/api/test_framing.py"),
    *("tests/api/test_intake.py", "tests/api/test_service_keys.py", "tests/api/test_service_figures.py"),
)
#: What takes long by its size, not by what surrounds it.
WITHOUT = "not 1000000 and not many"


def run(name: str, *arguments: str) -> int:
    """The suite in one of the surroundings; the status of pytest."""
    print(f"--- {name}", flush=True)
    with tempfile.TemporaryDirectory(dir=ROOT) as folder:  # not below /tmp, which the services may not see
        command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "-k", WITHOUT, *SUITE, *arguments]
        command += ["--basetemp", f"{folder}/tests"]
        return subprocess.run(command, cwd=ROOT, env={**os.environ, "SURROUNDINGS": name}, check=False).returncode


def main() -> int:
    return max(run(name, *sys.argv[1:]) for name in NAMES)


if __name__ == "__main__":
    sys.exit(main())
