"""A list of holes under the service's own columns means the same to the client, which reads it, and to the service."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping

import pytest
from borewright_client import Client
from borewright_client.cli import holes
from borewright_client.cli.columns import COLUMNS

CELLS: Mapping[str, tuple[str, ...]] = {
    "text": ("4140",),
    "figure": ("1.5", ".5", "3/8", "12 mm", "1 1/4", "nan", "1e3"),
    "flag": ("yes", "No", "TRUE", "0", "ja", "perhaps"),
    "list": ("27/64; 10.8 mm", "H3 | H5"),
}
SPELLED = {"through": "Thru", "din_76_1": "DIN 76", "least_torque": "Least torque", "inch": "in", "metric": "MM"}


def cells_of(name: str) -> tuple[str, ...]:
    """What people write into a column."""
    words = COLUMNS[name].words
    return (*words, *(SPELLED.get(word, word.upper()) for word in words)) if words else CELLS[COLUMNS[name].kind]


def rows() -> Iterator[dict[str, str]]:
    """A hole for each cell of each column; one with the last of all columns; text and more of the same object."""
    for name in COLUMNS:
        for cell in cells_of(name):
            yield {"thread": "M8", name: cell}
    yield {name: cells_of(name)[-1] for name in COLUMNS}
    yield {"thread": "M8", "material": "4140", "material.hardness": "28 HRC"}
    yield {"thread": "M8", "finish": "ASTM B633 Fe/Zn 8", "finish.masked": "yes"}


@pytest.fixture
def client(service_url: str) -> Iterator[Client]:
    with Client(service_url) as client:
        yield client


@pytest.mark.parametrize("backwards", [False, True], ids=["as listed", "backwards"])
def test_every_column_is_read_alike(client, backwards):
    names = list(reversed(COLUMNS)) if backwards else list(COLUMNS)
    text = io.StringIO()
    writer = csv.DictWriter(text, names)
    writer.writeheader()
    writer.writerows(rows())
    by_service = client.read_sheet(text.getvalue().encode())["results"]
    by_client = list(holes.read("list.csv", text.getvalue().splitlines(), ()))
    assert len(by_client) == len(by_service) > len(COLUMNS)
    differing = [
        (hole.row, hole.request, row.get("request", row.get("problem")))
        for hole, row in zip(by_client, by_service, strict=True)
        if hole.request != row.get("request")
    ]
    assert differing == []


def test_decimal_commas_under_our_own_columns(borewright, tmp_path):
    path = tmp_path / "holes.csv"
    path.write_text('id,thread,hole.type,hole.full_thread_depth,hole.thickness\nF1,M12,Blind,"18,5","35,0 mm"\n')
    (row,) = csv.DictReader(io.StringIO(borewright("batch", path)))
    assert row["depths.full_thread_depth"] == "18.5"
