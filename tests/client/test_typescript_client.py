"""The ten lines of openapi/README.md in TypeScript: they hold the types and ask the real service."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from made_clients import DOCUMENT, lines, what_they_say

pytestmark = pytest.mark.long

TOOLS = Path(sys.prefix) / "node" / "node_modules"
STRICT = "--target es2022 --lib es2023,dom --module nodenext --moduleResolution nodenext --strict --skipLibCheck"


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> Path:
    """A folder with the types that the generator makes of the committed document."""
    if not (TOOLS / "openapi-typescript").exists():
        pytest.skip("NO TYPESCRIPT: npm install openapi-typescript openapi-fetch typescript beside the tests' Python")
    made = tmp_path_factory.mktemp("typescript")
    (made / "node_modules").symlink_to(TOOLS)
    (made / "package.json").write_text(json.dumps({"type": "module"}), "utf-8")
    ran("openapi-typescript", str(DOCUMENT), "-o", str(made / "api.d.ts"), folder=made)
    return made


def ran(tool: str, *arguments: str, folder: Path, fine: bool = True) -> str:
    done = subprocess.run(
        [str(TOOLS / ".bin" / tool), *arguments], cwd=folder, capture_output=True, text=True, timeout=120, check=False
    )
    assert (done.returncode == 0) == fine, done.stdout + done.stderr
    return done.stdout


def test_the_lines_of_the_page_ask_the_service(folder, service_url):
    (folder / "shop.ts").write_text(lines("ts", service_url), "utf-8")
    ran("tsc", *STRICT.split(), "shop.ts", folder=folder)
    said = subprocess.run(["node", "shop.js"], cwd=folder, capture_output=True, text=True, timeout=60, check=True)
    assert said.stdout.strip() == what_they_say(service_url)


@pytest.mark.parametrize(
    ("right", "wrong"), [("full_thread_depth", "ful_thread_depth"), ("data.drill", "data.dril"), ('"blind"', '"blnd"')]
)
def test_a_misspelt_name_does_not_compile(folder, service_url, right, wrong):
    (folder / "wrong.ts").write_text(lines("ts", service_url).replace(right, wrong), "utf-8")
    assert "error TS" in ran("tsc", *STRICT.split(), "--noEmit", "wrong.ts", folder=folder, fine=False)
