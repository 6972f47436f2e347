"""Makes sbom.cdx.json, the bill of materials of requirements.lock, with a kept tool (`pip install cyclonedx-bom`).

Hashes stay with their component; addresses of package indexes are left out, because a shop installs from its own.
Licences are what the packages say of themselves, read where they are installed.
"""

from __future__ import annotations

import json
import subprocess
import sys
from importlib.metadata import metadata
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent


def bill(made: dict[str, Any]) -> dict[str, Any]:
    """The tool's bill with hashes and licence of each component on the component."""
    for component in made["components"]:
        found = [
            entry for reference in component.pop("externalReferences", []) for entry in reference.get("hashes", [])
        ]
        component["hashes"] = sorted(found, key=lambda entry: (entry["alg"], entry["content"]))
        component["licenses"] = [licence(component["name"])]
    made["metadata"].get("component", {}).pop("externalReferences", None)
    for tool in made["metadata"].get("tools", {}).get("components", []):
        tool.pop("externalReferences", None)
    return made


def licence(name: str) -> dict[str, Any]:
    """What an installed package says of its licence: an SPDX expression, else the words of its metadata."""
    said = metadata(name)
    if said["License-Expression"]:
        return {"expression": said["License-Expression"], "acknowledgement": "declared"}
    kinds = [line for line in said.get_all("Classifier") or () if line.startswith("License ::")]
    words = said["License"]
    if not words or "\n" in words:  # some give the whole text
        words = kinds[0].rpartition(":: ")[2]
    return {"license": {"name": words, "acknowledgement": "declared"}}


def main() -> None:
    """Write the bill beside the lock."""
    tool = Path(sys.executable).with_name("cyclonedx-py")
    command = [str(tool), "requirements", str(HERE / "requirements.lock"), "--output-reproducible", "--of", "JSON"]
    command += ["--pyproject", str(HERE.parent / "pyproject.toml")]
    made = subprocess.run(command, check=True, capture_output=True, text=True)  # noqa: S603 - our own command
    text = json.dumps(bill(json.loads(made.stdout)), indent=2, ensure_ascii=False) + "\n"
    (HERE / "sbom.cdx.json").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
