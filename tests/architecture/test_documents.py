"""What the documents name is there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent.parent
HOUSE = ROOT / "service" / "borewright"
#: A path may be told from these folders.
FROM = (
    ROOT,
    HOUSE,
    HOUSE / "core",
    HOUSE / "contract",
    HOUSE / "contract" / "replies",
    ROOT / "client" / "borewright_client",
)


@pytest.mark.parametrize("document", ["README.md", "DEVELOPERS.md", "client/README.md", "service/demo/README.md"])
def test_files_that_are_named_are_there(document):
    text = (ROOT / document).read_text(encoding="utf-8")
    named = set(re.findall(r"`((?:[a-z0-9_]+/)*[a-z0-9_]+\.py)`?", text)) | set(
        re.findall(r"\]\(([a-z][^):#]*)\)", text)
    )
    here = (ROOT / document).parent
    assert [name for name in sorted(named) if not any((folder / name).exists() for folder in (here, *FROM))] == []


def test_the_tour_names_files():
    tour = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").split("## One request followed")[1].split("\n## ")[0]
    assert len(re.findall(r"`[a-z0-9_/]+\.py", tour)) > 15
