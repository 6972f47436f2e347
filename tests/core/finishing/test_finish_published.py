"""Published tables and worked examples of coated and overtapped internal threads, compared as printed text; what is
from memory or by formula (tests/derived) is consistent with them, no more.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.finishing import allow
from borewright.core.finishing.feasibility import position_g_nominal_um
from borewright.core.finishing.flank_geometry import flank_factor
from borewright.core.model import FinishInput, Length, LengthRange, Range
from every import every
from outside_figures import outside


def _rows(name):
    return outside(name)


def _thread(text):
    return standards.resolve(callout.read(text))


def _thickness(least, most=None):
    ends = (None if end is None else Length(Decimal(end)) for end in (least, most))
    return FinishInput(thickness=LengthRange(*ends))


def _printed(limit: Range):
    return str(limit.min), str(limit.max)


# --- coats ------------------------------------------------------------------------------------------------------------


def test_quarter_28_with_two_to_three_tenths():
    """Gauge-maker's note on ASME B1.1-1989 7.4.2, 7.5.2 (2003 pp. 64-65): 4t is .0008 and .0012."""
    found = allow(_thread("1/4-28 UNF-2B"), _thickness("0.0002", "0.0003"))
    assert _printed(found.before_finish.pitch_diameter) == ("0.2280", "0.2319")
    assert str(found.before_finish.major_diameter.min) == "0.2506"  # major of the GO gauge before plating
    assert (found.change.pitch_diameter.min, found.change.pitch_diameter.max) == (Decimal("-.0012"), Decimal("-.0008"))
    assert _printed(found.finished.pitch_diameter) == ("0.2268", "0.2311")
    assert found.reading == "asme"
    assert found.feasible
    # NOT GO gauge: its major .2466 grows by twice the least thickness to .2470
    assert Decimal(".2466") - found.change.major_diameter.max == Decimal(".2470")


@pytest.mark.parametrize("um", ["3", "5", "8", "10", "12", "15", "20", "25", "30"])
def test_fundamental_deviation_is_four_times_the_coat(um):
    """ISO 4042:1999 annex: local thickness t needs 4 t (3 um: 12 ... 30 um: 120)."""
    thick = Decimal(um) / 1000
    found = allow(_thread("M20"), _thickness(thick, thick))
    assert found.change.pitch_diameter.min == -4 * thick


def test_minimum_only_makes_six_times():
    """Training page on ASME B1.1: 0.00015 in minimum, six times is 0.0009 in."""
    found = allow(_thread("1/2-13"), _thickness("0.00015"))
    assert found.change.pitch_diameter.min == Decimal("-0.0009")
    assert found.change.pitch_diameter.max == Decimal("-0.0006")  # four times on the upper limit
    assert found.change.minor_diameter.min == Decimal("-0.00045")  # three and two times on the minor diameter
    assert found.change.minor_diameter.max == Decimal("-0.0003")


@pytest.mark.parametrize(("text", "um", "both_members"), [("M6", "0.005", "0.040"), ("M20", "0.020", "0.160")])
def test_two_coated_members_lose_eight_times(text, um, both_members):
    """Fastener maker's M6 with 5 um on both: 40 um; trade article on structural bolts with 20 um: 160 um."""
    found = allow(_thread(text), _thickness(um, um))
    assert -2 * found.change.pitch_diameter.min == Decimal(both_members)


def test_type_ii_anodize_in_a_hole():
    """Anodizing association: 0.6 mil of Type II closes a hole by 0.4 mil (a third grows outwards)."""
    finish = FinishInput(
        specification="MIL-A-8625", finish_class="Type II", thickness=_thickness(".0006", ".0006").thickness
    )
    found = allow(_thread("1/4-20"), finish)
    assert f"{-found.change.minor_diameter.max:.4f}" == "0.0004"


@pytest.mark.parametrize(
    ("film", "bore", "pitch"),
    [
        (".0015", ".0015", ".003"),  # anodizing association: 1.5 mil closes a hole by 1.5 mil
        (".004", ".004", ".008"),  # finisher's note: 0.004 in is 0.002 in a surface, threads two and four times that
    ],
)
def test_hard_anodize_in_a_hole(film, bore, pitch):
    finish = FinishInput(
        specification="MIL-A-8625", finish_class="Type III", thickness=_thickness(film, film).thickness
    )
    found = allow(_thread("1/2-13"), finish)
    assert -found.change.minor_diameter.min == Decimal(bore)
    assert -found.change.pitch_diameter.min == Decimal(pitch)


@pytest.mark.parametrize(
    ("angle", "published"),
    [("60", "4.000"), ("55", "4.331"), ("47.5", "4.966"), ("30", "7.727"), ("29", "7.988"), ("10", "22.947")],
)
def test_flank_factors(angle, published):
    """Machinery's Handbook 27th ed. p. 1793 (60 degrees); published as 8:1 (Acme), 23:1 (10 degrees)."""
    assert f"{flank_factor(Decimal(angle)):.3f}" == published


@pytest.mark.parametrize("row", _rows("iso4042_internal_G"), ids=lambda row: row["pitch_mm"])
def test_position_g_room(row):
    """ISO 4042:1999 Table 2."""
    printed = row["max_nominal_coating_um_published"] or row["max_nominal_coating_um_check"]
    assert str(position_g_nominal_um(Decimal(row["pitch_mm"]))) == printed


@pytest.mark.parametrize(
    ("text", "pitch"), [("M5-6G", "0.8"), ("M8-6G", "1.25"), ("M10-6G", "1.5"), ("M16-6G", "2"), ("M20-6G", "2.5")]
)
def test_position_g_takes_its_nominal_coat_without_new_limits(text, pitch):
    """The room of position G is not below four times the nominal thickness of ISO 4042:1999 Table 2."""
    nominal = Decimal(position_g_nominal_um(Decimal(pitch))) / 1000
    thread = _thread(text)
    found = allow(thread, _thickness(nominal, nominal))
    assert found.before_finish.pitch_diameter == thread.internal.pitch_diameter
    assert found.finished.pitch_diameter.min == thread.basic.pitch_diameter


# --- hot-dip zinc -----------------------------------------------------------------------------------------------------

A563 = _rows("a563_overtap")
INCH = [row for row in A563 if row["system"] == "inch"]


def _inch_name(row):
    whole, part = divmod(Decimal(row["size"]), 1)
    numerator, denominator = part.as_integer_ratio()
    size = (
        f"{whole}" if not part else f"{numerator}/{denominator}" if not whole else f"{whole} {numerator}/{denominator}"
    )
    return f"{size}-{row['pitch_or_tpi']} {row['series']}-2B"


@pytest.mark.parametrize("row", INCH, ids=_inch_name)
def test_inch_overtap(row):
    """ASTM A563 overtapping table: 26 printed rows; the two cut-off rows by the same rule."""
    found = allow(_thread(_inch_name(row)), FinishInput(text="hot dip galvanized")).overtap
    printed = (row["pd_min_published"] or row["pd_min_check"], row["pd_max_published"] or row["pd_max_check"])
    assert _printed(found.limits.pitch_diameter) == printed
    assert str(found.amount) == row["diametral_allowance"]


@pytest.mark.parametrize("row", [row for row in A563 if row["system"] == "metric"], ids=lambda row: row["size"])
def test_metric_overtap_of_a563m(row):
    """ASTM A563M, from memory: position AX."""
    found = allow(_thread(row["size"]), FinishInput(text="ASTM A563M"))
    assert found.overtap.amount * 1000 == int(row["diametral_allowance"])
    assert next(source.status for source in found.notes.sources if source.field == "overtap") == "from_memory"


@every("by_class", [True, False])
@every("row", _rows("iso965_5"), ids=lambda row: f"{row['thread']} {row['class']}")
def test_metric_overtap(row, by_class):
    """ISO 965-5:1998: deviations and limits of every size, and M8 by the formula."""
    if by_class:
        found = allow(_thread(f"{row['thread']}-{row['class']}"), FinishInput(text="ISO 10684")).overtap
    else:
        found = allow(_thread(row["thread"]), FinishInput(text=f"ISO 10684 {row['class']}")).overtap
    assert (found.standard, found.system) == ("ISO 965-5", row["class"])
    assert found.amount * 1000 == int(row["EI_um"])
    assert str(found.limits.major_diameter.min) == row["D_min_mm"]
    assert _printed(found.limits.pitch_diameter) == (row["D2_min_mm"], row["D2_max_mm"])
    assert _printed(found.limits.minor_diameter) == (row["D1_min_mm"], row["D1_max_mm"])
