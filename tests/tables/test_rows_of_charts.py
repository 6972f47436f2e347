"""Size, pitch and drill of every row of our tap drill charts stand in a chart from outside."""

from __future__ import annotations

import re
from decimal import Decimal

from borewright import tables
from every import every
from outside_figures import outside
from table_rows import held, plain


def label(text):
    """A drill as we name it: 1-1/2 for 1 1/2, 6.8 for 6.8 mm."""
    return plain(re.sub(r"^(\d+) (?=\d+/)", r"\1-", text).removesuffix(" mm").removesuffix(" in"))


def inches():
    return {row["nominal"]: row["basic_major_in"] for row in tables.load("unified_series").rows}


def unified_ours():
    names = inches()
    for row in held("tap_drill_unified"):
        size = names.get(row["size"]) or str(sixteenths(row["size"]))
        for one in row["class"].split("/"):
            yield size, row["threads_per_inch"], one, row["drill_label"]


def sixteenths(size):
    """2 1/16: sizes that the series of the standard leaves out."""
    whole, part = size.split()
    over, under = part.split("/")
    return Decimal(whole) + Decimal(over) / Decimal(under)


def unified_outside():
    for row in outside("unified_tap_drill"):
        for one in row["class"].split("/"):
            yield row["basic_major_in"], row["tpi"], one, row["drill_label"]


def given(table, *columns, **only):
    return [tuple(row[column] for column in columns) for row in held(table, **only)]


def pairs(file, *columns):
    return [tuple(row[column] for column in columns) for row in outside(file)]


def designated(pattern, file, drill):
    return [(*re.match(pattern, row["thread"]).groups(), row[drill]) for row in outside(file)]


METRIC = r"(?:M|Tr )([\d.]+)x([\d.]+)"
INCH = r"(.+)-([\d.]+)"
CHARTS = [
    ("iso_metric", lambda: given("tap_drill_iso_metric", "size", "pitch_mm", "drill_label"),
     lambda: pairs("metric_tap_drill", "D", "P", "drill_iso2306")),
    ("trapezoidal", lambda: given("tap_drill_trapezoidal", "size", "pitch_mm", "drill_label"),
     lambda: designated(METRIC, "tr_tap_drill", "drill_mm")),
    ("unified", lambda: list(unified_ours()), lambda: list(unified_outside())),
    ("iso_228", lambda: given("tap_drill_iso_228", "size", "drill_label"),
     lambda: pairs("iso228_g_tap_drill", "size", "drill_mm")),
    ("iso_7", lambda: given("tap_drill_iso_7", "series", "size", "drill_label"),
     lambda: [(kind[:2], size, drill) for kind, size, drill in pairs("iso7_tap_drill", "series", "size", "drill_mm")]),
    ("npt", lambda: given("tap_drill_npt", "size", "drill_label"), lambda: pairs("npt_tap_drill", "size", "drill")),
    ("nptf", lambda: given("tap_drill_nptf", "size", "drill_label"), lambda: pairs("nptf_tap_drill", "size", "drill")),
    ("british_association", lambda: given("tap_drill_british_association", "size", "drill_label"),
     lambda: [(size.removesuffix(" BA"), drill) for size, drill in pairs("ba_tap_drill", "size", "drill_mm")]),
    ("whitworth", lambda: given("tap_drill_whitworth", "series", "size", "drill_diameter_mm"),
     lambda: [(series, *one) for series in ("BSW", "BSF")
              for one in pairs(f"{series.lower()}_tap_drill", "size", "drill_mm")]),
    ("insert_metric", lambda: given("tap_drill_insert_metric", "size", "pitch_mm", "drill_label"),
     lambda: designated(METRIC, "sti_metric_tap_drill", "drill_mm")),
    ("insert_unified",
     lambda: [(size.removeprefix("#"), *rest) for size, *rest in
              given("tap_drill_insert_unified", "size", "threads_per_inch", "drill_diameter_in")],
     lambda: designated(INCH, "sti_inch_tap_drill", "drill_in")),
    ("acme", lambda: given("tap_drill_acme", "size", "threads_per_inch", "drill_label"),
     lambda: designated(INCH, "acme_tap_drill", "drill")),
]  # fmt: skip


@every(("system", "ours", "theirs"), CHARTS)
def test_a_row_stands_in_a_chart_from_outside(system, ours, theirs):
    printed = {(*map(plain, row[:-1]), label(row[-1])) for row in theirs()}
    rows = [(*map(plain, row[:-1]), label(row[-1])) for row in ours()]
    assert rows
    assert [row for row in rows if row not in printed] == [], system


def test_mean_oversize_is_the_printed_one_of_its_drill():
    """FED-STD-H28/2B, Appendix A Tables II.A.1 and II.A.2, column of the mean oversize; every drill with its figure."""
    printed = {(Decimal(row["drill_in"]), Decimal(row["mean_oversize_in"])) for row in outside("unified_tap_drill")
               if row["mean_oversize_in"]}  # fmt: skip
    ours = {(Decimal(row["drill_in"]), Decimal(row["mean_oversize_in"])) for row in held("drill_mean_oversize")}
    assert ours <= printed
    assert {drill for drill, _ in ours} == {drill for drill, _ in printed}


def test_spread_of_drilled_holes_lies_between_its_derivations():
    """The middle of three estimates, to a ten-thousandth: published averages over 4, AND10387 over 6, IT11 over 6."""
    rows = outside("drilled_hole_sigma")
    for row in held("drilled_hole_spread"):
        of_size = [one for one in rows if Decimal(one["drill_in"]) == Decimal(row["to_in"])]
        (taken,) = [one["sigma_in"] for one in of_size if one["quantity"] == "sigma RECOMMENDED"]
        others = [Decimal(one["sigma_in"]) for one in of_size if one["quantity"] != "sigma RECOMMENDED"]
        assert Decimal(row["sigma_in"]) == Decimal(taken)
        assert len(others) == 3
        assert min(others) <= Decimal(row["sigma_in"]) <= max(others)
