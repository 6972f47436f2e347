"""Hands the plan of a part to an MES: a B2MML document in the folder that it reads, with equipment and material lists.

The list of holes is a file as `borewright plan` reads it. A plan on which something is left to decide is not handed
over, unless --undecided says that the MES holds it back. README.md explains it.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

from borewright_client import Client, ClientError
from lxml import etree

FORMS = {
    ".csv": "text/csv",
    ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}


class NotHandedOver(Exception):
    """The plan is not for the shop as it stands; nothing was written."""


def hand_over(
    client: Client, holes: Path, inbox: Path, schema: Path | None = None, *, undecided: bool = False, **options: Any
) -> Path:
    """Write the plan of the holes in a file into a folder; the document's path.

    Args: ``schema`` is the XSD of an OperationsDefinition that the document must hold, ``options`` are further fields
    of POST /v1/part-plans (part, lot_size, machine ...). Raises: NotHandedOver, ClientError.
    """
    asked = {"part": holes.stem, **options, "holes": _requests(client, holes)}
    plan = client.plan_part({**asked, "detail": "routing"})
    _refuse(f"{hole['hole']}: {fault['detail']}" for hole in plan["refused"] for fault in hole["errors"])
    if plan["verdict"] != "ready" and not undecided:
        _refuse(f"{one['hole']} waits for a decision: {one['text']}" for one in plan["review"])
    document = client.b2mml_part(asked)
    if schema is not None:
        judge = etree.XMLSchema(etree.parse(schema))
        judge.validate(etree.fromstring(document))
        _refuse(f"{schema} line {fault.line}: {fault.message}" for fault in judge.error_log)
    return _written(inbox / f"{Path(asked['part']).name}.xml", document)


def _requests(client: Client, holes: Path) -> list[dict[str, Any]]:
    if holes.suffix.lower() not in FORMS:
        raise NotHandedOver(f"{holes} is none of {', '.join(FORMS)}")
    rows = client.read_sheet(holes.read_bytes(), FORMS[holes.suffix.lower()])["results"]
    faults = ((row["row"], fault) for row in rows for fault in row.get("problem", {}).get("errors", ()))
    _refuse(f"{holes} row {row}: {fault['detail']}" for row, fault in faults)
    return [row["request"] for row in rows]


def _refuse(told: Iterable[str]) -> None:
    if faults := list(told):
        raise NotHandedOver("\n".join(faults))


def _written(path: Path, content: bytes) -> Path:
    """Whoever watches the folder sees the whole document or none."""
    part = path.with_name(f".{path.name}.part")
    part.write_bytes(content)
    os.replace(part, path)
    return path


def main(arguments: Sequence[str] | None = None) -> int:
    """Hand over the parts that are named; the exit code says whether all were."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument(
        "holes", nargs="+", type=Path, metavar="FILE", help=".csv or .xlsx; its name is that of the part"
    )
    parser.add_argument("--inbox", type=Path, required=True, help="folder that the MES reads")
    parser.add_argument(
        "--schema", type=Path, help="B2MML-OperationsDefinition.xsd of the MES; each document must hold it"
    )
    parser.add_argument("--lot-size", type=int, default=1, help="parts of the lot, for its time (default 1)")
    parser.add_argument("--undecided", action="store_true", help="hand over what waits for a decision too")
    parser.add_argument("--url", default=os.environ.get("BOREWRIGHT_CLIENT_URL", "http://127.0.0.1:8080"))
    given = parser.parse_args(arguments)
    handed = True
    with Client(given.url, api_key=os.environ.get("BOREWRIGHT_CLIENT_KEY")) as client:
        for holes in given.holes:
            try:
                options = {"undecided": given.undecided, "lot_size": given.lot_size}
                print(hand_over(client, holes, given.inbox, given.schema, **options))
            except (NotHandedOver, ClientError, OSError) as error:
                print(error, file=sys.stderr)
                handed = False
    return 0 if handed else 1


if __name__ == "__main__":
    sys.exit(main())
