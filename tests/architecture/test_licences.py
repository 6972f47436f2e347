"""The licence text goes with both distributions and the image, and nothing names an address that is not there."""

from __future__ import annotations

import hashlib
import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent.parent
#: Of https://www.apache.org/licenses/LICENSE-2.0.txt, as Debian's base-files carry it.
APACHE_2_0 = "cfc7749b96f63bd31c3c42b5c471bf756814053e847c10f3eb003417bc523d30"
OPEN = re.compile(r"\bscript\b|open data|open-source|CC-BY|MIT licence|BSD|mechanical-engineering library")


@pytest.mark.parametrize("folder", [ROOT, ROOT / "client"], ids=["service", "client"])
def test_a_distribution_carries_its_licence(folder):
    project = tomllib.loads((folder / "pyproject.toml").read_text("utf-8"))["project"]
    text, notice = (folder / name for name in project["license-files"])
    assert project["license"] == "Apache-2.0"
    assert hashlib.sha256(text.read_bytes()).hexdigest() == APACHE_2_0
    assert notice.name == "NOTICE"
    assert "urls" not in project


def test_the_image_carries_the_licence():
    text = (ROOT / "docker" / "Dockerfile").read_text("utf-8")
    assert "COPY service/LICENSE service/NOTICE" in text


def test_every_file_with_figures_from_an_open_file_is_in_the_notice():
    notice = (ROOT / "service" / "NOTICE").read_text("utf-8")
    tables = [
        *(ROOT / "service" / "borewright" / "tables").rglob("*.csv"),
        *(ROOT / "tests" / "published").glob("*.csv"),
    ]
    rows = {path.name: _figures(path) for path in tables}
    assert [name for name, text in rows.items() if OPEN.search(text) and name not in notice] == []


def _figures(path: Path) -> str:
    """What a file says of where its rows were read; a cross-check is no source."""
    return "\n".join(line for line in path.read_text("utf-8").splitlines() if not line.startswith("# cross-check"))
