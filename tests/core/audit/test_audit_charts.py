"""No drill of a published chart and no recommended tap limit is rejected; what is doubtful is remarked upon."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout
from borewright.core.audit import AsPlanned, AuditRequest, PlannedTap, audit
from borewright.core.model import Hole, Length
from borewright.core.requests import HoleSpecRequest
from every import every
from outside_figures import outside

HOLE = Hole("through", thickness=Length(Decimal(1), "in"))
#: Drills of shop lists that lie outside the minor diameter limits of ISO 228-1, as the file itself says of most.
OUTSIDE_ISO_228 = {("G 1 1/2", "45.5 mm"), ("G 2", "57.5 mm"), ("G 2 1/4", "63.5 mm"), ("G 2 3/4", "78.5 mm")}


def rows(name):
    return outside(name)


def inch_label(label):
    return f"{label} in" if label.isdigit() else label


def charted():
    for row in rows("unified_tap_drill"):
        for thread_class in row["class"].split("/"):
            yield f"{row['thread']}-{thread_class}", inch_label(row["drill_label"])
    for row in rows("metric_tap_drill"):
        yield f"M{row['D']}x{row['P']}", f"{row['drill_iso2306']} mm"
    for row in rows("iso7_tap_drill"):
        yield f"{row['series'][:2]} {row['size']}", f"{row['drill_mm']} mm"
    for row in rows("iso228_g_tap_drill"):
        yield f"G {row['size']}", f"{row['drill_mm']} mm"
    for row in rows("ba_tap_drill"):
        yield row["size"], f"{row['drill_mm']} mm"
    for row in rows("acme_tap_drill"):
        if row["drill"] != "none":
            yield f"{row['thread']} ACME-2G", row["drill"]


def recommended():
    for row in rows("recommended_h_limits"):
        name = f"{row['size'].lstrip('#')}-{row['tpi']} {row['series'].replace('UN', 'N')}"
        for thread_class in ("2B", "3B"):
            thread = f"{row['size']}-{row['tpi']} {row['series']}-{thread_class}"
            yield thread, f"{name} HSS G {row[f'rec_{thread_class}']}"
    for row in rows("recommended_d_limits"):
        for thread_class in ("4H", "6H"):
            thread = f"{row['size']}x{row['pitch_mm']}-{thread_class}"
            yield thread, f"{row['size']}x{row['pitch_mm']} HSS G {row[f'rec_{thread_class}']}"


#: FED-STD-H28/2B Table II.A.2 as machine-read: 0.0012 in above the largest minor diameter of the class, 1.0926 in.
OUTSIDE_3B = {("1 1/8-28 UN-3B", "1 3/32")}
CHARTED = sorted(set(charted()) - OUTSIDE_ISO_228 - OUTSIDE_3B)
RECOMMENDED = sorted(set(recommended()))


def errors(thread, drill, tap, part):
    findings = audit(AuditRequest(HoleSpecRequest(callout.read(thread), HOLE), AsPlanned(drill, tap))).findings
    return [finding for finding in findings if finding.severity == "error" and finding.field == part]


def test_the_files_are_read_whole():
    assert len(CHARTED) > 300
    assert len(RECOMMENDED) > 100


@every(("thread", "drill"), CHARTED)
def test_chart_drill_is_not_rejected(thread, drill):
    assert errors(thread, drill, PlannedTap(style="straight_flute"), "drill") == []


@every(("thread", "marking"), RECOMMENDED)
def test_recommended_limit_is_not_rejected(thread, marking):
    assert errors(thread, "5 mm", PlannedTap(marking), "tap") == []


@pytest.mark.parametrize(("thread", "drill"), sorted(OUTSIDE_ISO_228))
def test_shop_drill_outside_the_limits_is_rejected(thread, drill):
    assert errors(thread, drill, PlannedTap(style="straight_flute"), "drill") != []
