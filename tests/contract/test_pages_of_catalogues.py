"""Filters and pages of the lists: both ends of a filter belong to it, the last page has what is left."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.contract.catalogues import catalogue, catalogue_rows, thread_catalog
from borewright.contract.requests.queries import CatalogFilter, RowsWanted, catalog_filter, rows_wanted
from borewright.core.errors import BorewrightError
from borewright.core.model import Length
from every import every


def span(least, most, unit):
    ends = {"min_diameter": least, "max_diameter": most}
    return {name: Length(Decimal(value), unit) for name, value in ends.items() if value}


def test_a_page_is_the_first_hundred_sizes_unless_the_query_says_so():
    """As the description of the parameters has it; of a catalogue all rows are shown."""
    assert (catalog_filter([]).page, catalog_filter([]).page_size) == (1, 100)
    assert rows_wanted([]) == RowsWanted(None, None, None)
    assert (catalog_filter([("page", "3")]).page, catalog_filter([("page_size", "7")]).page_size) == (3, 7)


@every(
    ("least", "most", "unit", "sizes"),
    [
        # UNC of ASME B1.1, table 1: 1/4 = 0.2500, 5/16 = 0.3125, 3/8 = 0.3750, 7/16 = 0.4375; 25.4 mm an inch
        ("0.25", "0.375", "in", ["1/4", "5/16", "3/8"]), ("0.2501", "0.375", "in", ["5/16", "3/8"]),
        ("0.25", "0.3749", "in", ["1/4", "5/16"]), ("6.35", "9.525", "mm", ["1/4", "5/16", "3/8"]),
        ("6.36", "9.52", "mm", ["5/16"]), ("0.4375", "0.4375", "in", ["7/16"]), ("0.26", "0.3", "in", []),
    ],
)  # fmt: skip
def test_sizes_between_two_diameters(least, most, unit, sizes):
    for series in ("UNC", "unc"):
        found = thread_catalog(CatalogFilter(None, "unified", series, **span(least, most, unit)))
        assert [one["size"] for one in found["items"]] == sizes
        assert (found["total"], found["pages"]) == (len(sizes), min(1, len(sizes)))


@every(
    ("unit", "figures"),
    [(None, ("in", 0.25, 0.05)), ("in", ("in", 0.25, 0.05)), ("mm", ("mm", 6.35, 1.27))],
)
def test_a_size_in_the_unit_that_is_asked_for(unit, figures):
    """1/4-20 UNC: 0.2500 in, 20 threads an inch, 25.4 / 20 = 1.27 mm."""
    found = thread_catalog(CatalogFilter(unit, "unified", "UNC", **span("0.25", "0.25", "in")))
    (one,) = found["items"]
    assert (one["unit"], one["nominal_diameter"], one["pitch"]) == figures
    assert (one["threads_per_inch"], one["series"], one["system"]) == (20, "UNC", "unified")
    assert {"2B", "3B"} <= set(one["classes"])
    assert found["units"]["length"] == unit if unit else "units" not in found


def test_an_unknown_system_offers_the_known_ones():
    with pytest.raises(BorewrightError) as refused:
        thread_catalog(CatalogFilter(None, "unifed"))
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer, fault.did_you_mean[0]) == ("thread_system_unknown", "/system", "unified")
    assert {"unified", "iso_metric"} <= set(fault.allowed)


def test_a_page_alone_has_a_hundred_rows_and_a_size_alone_is_the_first_page():
    rows = catalogue_rows("drills")
    assert len(rows) > 200
    found = catalogue("drills", RowsWanted(page=2))
    assert (found["items"], found["page"], found["page_size"]) == (rows[100:200], 2, 100)
    found = catalogue("drills", RowsWanted(page_size=7))
    assert (found["items"], found["page"], found["page_size"]) == (rows[:7], 1, 7)
    assert "page" not in catalogue("drills")


def test_the_last_page_has_what_is_left():
    rows = catalogue_rows("drills")
    count = len(rows)
    for size, pages, left in ((count, 1, count), (count - 1, 2, 1), (count + 1, 1, count)):
        found = catalogue("drills", RowsWanted(page=pages, page_size=size))
        assert (found["pages"], found["total"], len(found["items"])) == (pages, count, left)
        assert found["items"][-1] == rows[-1]


def test_rows_of_materials_have_their_sources_and_no_notes():
    for row in catalogue_rows("materials"):
        assert row["name"]
        assert "notes" not in row
        assert {"document", "edition", "locator", "status"} == set(row["sources"][0])
