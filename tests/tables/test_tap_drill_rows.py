"""Every row of a tap drill chart names a size that its standard has, with that pitch, and a drill by its own size.

A row whose size or pitch is mistyped is found by nobody who asks for the thread: the answer falls back to the rule
without a word. A fraction, and a size in millimetres, say themselves how large the drill is.
"""

from __future__ import annotations

from collections import Counter
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import cache

from borewright import tables
from every import every

PITCHES = ("pitch_mm", "threads_per_inch", "tpi")


def pairs(table, *columns):
    """Size and pitch of the rows of a table of sizes."""
    return {tuple(_plain(row[column]) for column in columns) for row in tables.load(table).rows}


def _plain(cell):
    return cell if not cell or "/" in cell or " " in cell or "#" in cell else Decimal(cell)


def unified():
    series = tables.load("unified_series").rows
    named = (column for column in series[0] if column.startswith("U") or column.endswith("UN"))
    columns = tuple(named)
    held = {(_plain(row["nominal"]), Decimal(row[one])) for row in series for one in columns if row[one][:1].isdigit()}
    return held | pairs("unified_selected_uns", "nominal", "tpi")


@cache
def sizes():
    """Sizes of each system, with the pitches that its standard gives them."""
    return {
        "acme": pairs("acme", "size", "threads_per_inch"),
        "british_association": pairs("british_association", "size", "pitch_mm"),
        "npsf": pairs("dryseal_straight", "size", "threads_per_inch"),
        "npsi": pairs("dryseal_straight", "size", "threads_per_inch"),
        "insert_metric": pairs("insert_metric", "diameter_mm", "pitch_mm"),
        "insert_unified": pairs("insert_unified", "size", "threads_per_inch"),
        "iso_228": pairs("iso_228", "size", "pitch_mm"),
        "iso_7": pairs("iso_7", "size", "pitch_mm"),
        "iso_metric": pairs("metric_series", "diameter_mm", "pitch_mm"),
        "npt": pairs("npt", "size", "threads_per_inch"),
        "nptf": pairs("nptf", "size", "threads_per_inch"),
        "trapezoidal": pairs("trapezoidal", "diameter_mm", "pitch_mm"),
        "unified": unified(),
        "whitworth": pairs("whitworth", "size", "threads_per_inch"),
    }


def charts():
    return [row for name in tables.names() if name.startswith("tap_drill_") for row in tables.load(name).rows]


@cache
def lettered():
    return {(row["series"], row["label"]): Decimal(row["diameter_in"]) for row in tables.load("drills").rows}


@every("row", charts, ids=lambda row: f"{row['system']} {row['size']} {row['drill_label']}")
def test_a_row_names_a_size_of_its_standard(row):
    pitch = next(row[column] for column in PITCHES if column in row)
    assert (_plain(row["size"]), Decimal(pitch)) in sizes()[row["system"]]


def test_no_drill_is_named_twice_for_a_thread():
    columns = ("system", "series", "size", "class", "pitch_mm", "threads_per_inch", "variant", "drill_label")
    said = Counter(tuple(row.get(column, "") for column in columns) for row in charts())
    assert [row for row, count in said.items() if count > 1] == []


@every("row", charts, ids=lambda row: f"{row['system']} {row['size']} {row['drill_label']}")
def test_a_drill_is_as_large_as_its_name_says(row):
    label, metric = row["drill_label"], row.get("drill_diameter_mm")
    printed = Decimal(metric or row["drill_diameter_in"])
    size = _inches(label) * (1 if metric is None else Decimal("25.4"))
    step = Decimal(1).scaleb(min(-3, printed.as_tuple().exponent))
    assert printed in {size.quantize(step, rounding) for rounding in (ROUND_HALF_UP, ROUND_HALF_EVEN)}


def _inches(label):
    if label.endswith(" mm"):
        return Decimal(label.removesuffix(" mm")) / Decimal("25.4")
    if label.endswith(" in"):
        return Decimal(label.removesuffix(" in"))
    if "/" in label or label.isdigit():
        whole, _, part = label.rpartition("-")
        size = Fraction(part) + (Fraction(whole) if whole else 0)
        return Decimal(size.numerator) / size.denominator
    return lettered()["number" if label.startswith("#") else "letter", label]


@every("row", lambda: tables.load("drills").rows, ids=lambda row: row["label"])
def test_both_sizes_of_a_drill_are_one(row):
    """25.4 mm to the inch; the size that names a drill is exact, the other one rounded to its last digit."""
    inches, metric = Decimal(row["diameter_in"]), Decimal(row["diameter_mm"])
    exact = metric / Decimal("25.4") if row["series"] == "metric" else inches * Decimal("25.4")
    held = inches if row["series"] == "metric" else metric
    assert abs(held - exact) <= Decimal(1).scaleb(held.as_tuple().exponent) / 2
