"""The bill of materials names what the lock installs, no more and no less."""

from __future__ import annotations

import json
import re
from pathlib import Path

DOCKER = Path(__file__).parent.parent.parent / "docker"


def test_it_matches_the_lock():
    bill = json.loads((DOCKER / "sbom.cdx.json").read_text("utf-8"))
    assert bill["bomFormat"] == "CycloneDX"
    listed = {(component["name"], component["version"]) for component in bill["components"]}
    locked = set(re.findall(r"^([a-z0-9_.-]+)==([^ \\]+)", (DOCKER / "requirements.lock").read_text("utf-8"), re.M))
    assert locked
    assert listed == locked


def test_every_package_has_its_hashes():
    bill = json.loads((DOCKER / "sbom.cdx.json").read_text("utf-8"))
    without = [component["name"] for component in bill["components"] if not component["hashes"]]
    assert without == []


def test_every_package_has_its_licence():
    bill = json.loads((DOCKER / "sbom.cdx.json").read_text("utf-8"))
    told = [licence for component in bill["components"] for licence in component["licenses"]]
    assert len(told) == len(bill["components"])
    named = [one.get("expression") or one["license"]["name"] for one in told]
    assert [name for name in named if not name or len(name) > 80 or "\n" in name] == []
