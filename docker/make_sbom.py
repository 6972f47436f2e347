"""Makes sbom.cdx.json, the bill of materials of requirements.lock, with a kept tool (`pip install cyclonedx-bom`).

Hashes stay with their component; addresses of package indexes are left out, because a shop installs from its own.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent


def bill(made: dict[str, Any]) -> dict[str, Any]:
    """The tool's bill with the hashes of each component's files on the component."""
    for component in made["components"]:
        found = [
            entry for reference in component.pop("externalReferences", []) for entry in reference.get("hashes", [])
        ]
        component["hashes"] = sorted(found, key=lambda entry: (entry["alg"], entry["content"]))
    made["metadata"].get("component", {}).pop("externalReferences", None)
    for tool in made["metadata"].get("tools", {}).get("components", []):
        tool.pop("externalReferences", None)
    return made


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
