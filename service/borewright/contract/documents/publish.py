"""Writes the generated documents: `python -m borewright.contract.documents.publish [--check] [FOLDER]`.

They are openapi/openapi.json, schemas/*.schema.json, the unit factors of this package, and of the client the columns
of CSV and the types of replies that it knows. `--check` writes nothing and ends with 1 when a file on disk is not what
the code makes.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

from borewright.contract.fields import unit_list

from . import client_columns, client_replies, published

_CLIENT = Path("client") / "borewright_client"
CLIENT_COLUMNS = _CLIENT / "cli" / "batch_columns.csv"
CLIENT_REPLIES = _CLIENT / "replies.py"


def documents(root: Path) -> dict[Path, bytes]:
    """Every generated file below ``root``, the project's folder, with its content."""
    made = {root / "openapi" / "openapi.json": published.openapi_json()}
    for name, content in published.schemas_json().items():
        made[root / "schemas" / f"{name}.schema.json"] = content
    made[unit_list.FACTORS] = unit_list.factors_csv().encode()
    made[root / CLIENT_COLUMNS] = client_columns.columns_csv().encode()
    made[root / CLIENT_REPLIES] = client_replies.replies_module().encode()
    return made


def stale(root: Path, made: Mapping[Path, bytes]) -> list[Path]:
    """Generated files that are missing, differ from what was ``made`` of the code, or should not be there."""
    wrong = [path for path, content in made.items() if not path.is_file() or path.read_bytes() != content]
    return wrong + sorted(path for path in (root / "schemas").glob("*.json") if path not in made)


def main(arguments: Sequence[str] | None = None) -> int:
    """Write or check the documents; the exit code says whether they are as the code makes them."""
    parser = argparse.ArgumentParser(prog="borewright.contract.documents.publish", description=__doc__.splitlines()[0])
    parser.add_argument("--check", action="store_true", help="write nothing, compare")
    parser.add_argument("folder", nargs="?", type=Path, default=Path.cwd(), help="the project's folder")
    given = parser.parse_args(arguments)
    made = documents(given.folder)
    wrong = stale(given.folder, made)
    if given.check:
        for path in wrong:
            print(f"not as the code makes it: {path}", file=sys.stderr)
        return 1 if wrong else 0
    for path in wrong:
        if path in made:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(made[path])
            print(f"written: {path}")
        else:
            path.unlink()
            print(f"removed: {path}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
