"""The ten lines of openapi/README.md in TypeScript: they hold the types and ask the real service."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
import requests

pytestmark = pytest.mark.long

ROOT = Path(__file__).parent.parent.parent
TOOLS = Path(sys.prefix) / "node" / "node_modules"
STRICT = "--target es2022 --lib es2023,dom --module nodenext --moduleResolution nodenext --strict --skipLibCheck"
PAGE = (ROOT / "openapi" / "README.md").read_text("utf-8")


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> Path:
    """A folder with the types that the generator makes of the committed document."""
    if not (TOOLS / "openapi-typescript").exists():
        pytest.skip("NO TYPESCRIPT: npm install openapi-typescript openapi-fetch typescript beside the tests' Python")
    made = tmp_path_factory.mktemp("typescript")
    (made / "node_modules").symlink_to(TOOLS)
    (made / "package.json").write_text(json.dumps({"type": "module"}), "utf-8")
    ran("openapi-typescript", str(ROOT / "openapi" / "openapi.json"), "-o", str(made / "api.d.ts"), folder=made)
    return made


def ran(tool: str, *arguments: str, folder: Path, fine: bool = True) -> str:
    done = subprocess.run(
        [str(TOOLS / ".bin" / tool), *arguments], cwd=folder, capture_output=True, text=True, timeout=120, check=False
    )
    assert (done.returncode == 0) == fine, done.stdout + done.stderr
    return done.stdout


def lines(url: str) -> str:
    (found,) = re.findall(r"```ts\n(.*?)```", PAGE, re.DOTALL)
    return found.replace("http://127.0.0.1:8080", url)


def test_the_lines_of_the_page_ask_the_service(folder, service_url):
    (folder / "shop.ts").write_text(lines(service_url), "utf-8")
    ran("tsc", *STRICT.split(), "shop.ts", folder=folder)
    said = subprocess.run(["node", "shop.js"], cwd=folder, capture_output=True, text=True, timeout=60, check=True)
    hole = {"thread": "M8", "hole": {"type": "blind", "full_thread_depth": 16}, "material": "4140"}
    reply = requests.post(f"{service_url}/v1/hole-specs", json=hole, timeout=10).json()
    assert said.stdout.strip() == f"{reply['drill']['recommended']['label']} {reply['headline']['tap']}"


@pytest.mark.parametrize(
    ("right", "wrong"), [("full_thread_depth", "ful_thread_depth"), ("spec.drill", "spec.dril"), ('"blind"', '"blnd"')]
)
def test_a_misspelt_name_does_not_compile(folder, service_url, right, wrong):
    (folder / "wrong.ts").write_text(lines(service_url).replace(right, wrong), "utf-8")
    assert "error TS" in ran("tsc", *STRICT.split(), "--noEmit", "wrong.ts", folder=folder, fine=False)
