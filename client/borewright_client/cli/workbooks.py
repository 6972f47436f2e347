"""Files that the service reads as they are: workbooks, and CSV as other programs save it."""

from __future__ import annotations

import csv
import json
import re
from collections.abc import Collection, Mapping
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

from ..call import Call
from ..client import Client
from ..errors import RequestRefused
from .exit_codes import WrongUse
from .hints import hint
from .holes import Hole

NDJSON = "application/x-ndjson"
_XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
_FORMS = {".csv": "text/csv", ".xlsx": _XLSX}
_FIRST_BYTES = 65_536
#: A cell that may be a date which a spreadsheet made of a callout: the service knows what was typed.
_MONTHS = "jan|feb|mar|mär|mrz|apr|may|mai|jun|jul|aug|sep|oct|okt|nov|dec|dez"
_DAY = rf"\d{{1,2}}[-. ]{{1,2}}(?:{_MONTHS})\w*|(?:{_MONTHS})[-. ]\d{{1,2}}|\d+/\d+/\d{{4}}|\d{{5}}"
_DATE = re.compile(rf'(?:^|,)"?(?:{_DAY})"?(?=,|\r?$)', re.IGNORECASE | re.MULTILINE)
#: A figure with a decimal comma, which the service tells from one of thousands.
_COMMA = re.compile(r'(?:^|,)"-?\d{0,15},\d{1,18}[^",]{0,20}"', re.MULTILINE)
_UNREADABLE = 400


def form(name: str) -> str:
    """Media type of a file by its suffix."""
    return _FORMS.get(Path(name).suffix.lower(), NDJSON)


def is_workbook(name: str | None) -> bool:
    """Whether the name of a file says that it is a workbook."""
    return form(name or "") == _XLSX


def is_left_to_the_service(name: str, columns: Collection[str]) -> bool:
    """Whether a file is no CSV in UTF-8 with commas and our own names of columns, nor lines.

    One that holds dates or decimal commas is left to it too.
    """
    if is_workbook(name):
        return True
    path = Path(name)
    if form(name) == NDJSON or not path.is_file():
        return False
    with path.open("rb") as source:
        first = source.read(_FIRST_BYTES)
    try:
        text = first.decode("utf-8-sig", "strict" if len(first) < _FIRST_BYTES else "ignore")
        names = next(csv.reader([text.partition("\n")[0]], strict=True), [])
    except (UnicodeDecodeError, csv.Error):
        return first[:2] in (b"\xff\xfe", b"\xfe\xff") or 0 in first[:2]
    own = all(not one.strip() or one.strip() in columns for one in names)
    return not own or _DATE.search(text) is not None or _COMMA.search(text) is not None


def read(client: Client, source: Path) -> list[Hole]:
    """The holes of a file as the service reads it. Raises: ClientError, WrongUse where it has no head."""
    lines = answer(client, "/v1/hole-specs/requests", source, {}, NDJSON).splitlines()
    return [_hole(json.loads(line)) for line in lines]


def _hole(result: Mapping[str, Any]) -> Hole:
    return Hole(result["row"], result.get("request") or {"id": result["id"]}, result.get("problem"))


def answer(client: Client, path: str, source: Path, query: Mapping[str, object], accept: str) -> bytes:
    """What the service answers to a file that is sent as it is. Raises: ClientError, WrongUse where it has no head."""
    said = urlencode({name: value for name, value in query.items() if value is not None})
    address = f"{path}?{said}" if said else path
    try:
        return client.run(Call("POST", address, bytes, source.read_bytes(), accept, sent=form(source.name)))
    except RequestRefused as error:
        if error.status != _UNREADABLE:
            raise
        raise WrongUse("\n".join(f"{source}{_head(one)}: {one['detail']}{hint(one)}" for one in error.errors)) from None


def _head(fault: Mapping[str, Any]) -> str:
    """Where a fault of the file as a whole is one of its head; that of a row says so itself."""
    return "" if fault["pointer"].count("/") > 1 else " row 1"
