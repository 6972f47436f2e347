"""The arithmetic that a finding shows holds: sums, what is above or below a limit, what is left of a wall."""

from __future__ import annotations

import re
from collections import Counter
from decimal import Decimal

from borewright.core import callout
from borewright.core.audit import AsPlanned, AuditRequest, PlannedTap, audit
from borewright.core.model import Hole, Length, MaterialInput
from borewright.core.requests import HoleSpecRequest
from every import every

_N = r"(-?[\d.]+)(?:\N{NO-BREAK SPACE}(in|mm))?"
_SUM = re.compile(rf"{_N} ([+-]) (?:[a-z][a-z ]*[a-z] )?{_N} = {_N}")
_OFF = re.compile(rf"{_N}: (?:on average )?{_N} (above|below) the")
_ALONE = re.compile(rf"The drill alone is {_N} above")
_LEFT = re.compile(rf"= {_N} in a wall of {_N}: {_N} left")
_CHAMFER = re.compile(rf"{_N} of full thread \+ ([\d.]+) threads of (\w+) chamfer x {_N} = {_N}")
_FORMED = re.compile(r"\(([\d.]+) - ([\d.]+)\) / \(0\.0068 x ([\d.]+)\) = ([\d.]+) %")
_LIMITS = re.compile(rf"(?:{_N} to |at (least|most) ){_N}")
#: Of a length as it is shown, each figure rounded by itself.
_LAST = {"in": Decimal("0.0001"), "mm": Decimal("0.001")}

BLIND = Hole("blind", full_thread_depth=Length(Decimal("0.75"), "in"), thickness=Length(Decimal(2), "in"))
THROUGH = Hole("through", thickness=Length(Decimal("0.5"), "in"))
UNC, H3 = "1/2-13 UNC-2B", "1/2-13 NC HSS G H3"


def _plan(drill=None, tap=None, *, thread=UNC, hole=THROUGH, method="cut", depth=None, style=None, chamfer=None):
    asked = HoleSpecRequest(callout.read(thread), hole, material=MaterialInput("4140"), method=method)
    planned = AsPlanned(drill or "27/64", PlannedTap(tap or H3, style=style, chamfer=chamfer), drill_depth=depth)
    return AuditRequest(asked, planned)


def _in(value):
    return Length(Decimal(value), "in")


PLANS = [
    *(_plan(drill) for drill in ("7/16", "Z", "11 mm", "10.9 mm", "10.5 mm", "10.4 mm", "3/8", "0.4150 in")),
    *(_plan(tap=f"1/2-13 NC HSS G H{number}") for number in (1, 2, 4, 7, 9, 11, 12, 13, 14, 15, 20)),
    *(
        _plan(drill, f"M8x1.25 HSS G D{number}", thread="M8")
        for drill in ("6.8 mm", "7 mm", "6.4 mm") for number in (3, 8, 12)
    ),
    *(
        _plan("7.3 mm", f"M8x1.25 HSS G D{number}", thread="M8", method="form", style="forming")
        for number in (3, 5, 7, 9)
    ),
    *(
        _plan(drill, thread="M8", tap="M8x1.25 HSS G D5", method="form")
        for drill in ("6.8 mm", "7 mm", "7.7 mm", "6.5 mm")
    ),
    *(_plan(hole=BLIND, depth=_in(depth)) for depth in ("1.9", "1.95", "2", "0.9", "0.7")),
    *(
        _plan(hole=BLIND, depth=_in(depth), chamfer=chamfer)
        for depth in ("0.8", "0.85", "0.95", "1.1")
        for chamfer in ("bottoming", "plug", "taper")
    ),
]  # fmt: skip


def _found():
    return [one for plan in PLANS for one in audit(plan).findings if one.code != "cautioned"]


def _near(one, other, unit):
    return abs(Decimal(one) - Decimal(other)) <= _LAST[unit]


def _check(finding, seen):
    text = finding.text
    for first, _, sign, second, _, total, unit in _SUM.findall(text):
        seen["sum"] += 1
        assert _near(Decimal(first) + (1 if sign == "+" else -1) * Decimal(second), total, unit), text
    for size, _, off, unit, side in _OFF.findall(text) + [(*one, "above") for one in _alone(finding)]:
        limits = _LIMITS.search(finding.expected)
        least, _, open_end, most, _ = limits.groups()
        limit = most if open_end or side == "above" else least
        seen[f"{finding.code} {side}"] += 1
        assert _near(abs(Decimal(size) - Decimal(limit)), off, unit), (text, finding.expected)
    for total, _, wall, _, left, unit in _LEFT.findall(text):
        seen["left"] += 1
        assert _near(Decimal(wall) - Decimal(total), left, unit), text
    for full, _, turns, name, pitch, _, needed, unit in _CHAMFER.findall(text):
        seen[f"{name} {finding.severity}"] += 1
        assert abs(Decimal(full) + Decimal(turns) * Decimal(pitch) - Decimal(needed)) <= 10 * _LAST[unit], text
    for major, drill, pitch, percent in _FORMED.findall(text):
        seen["formed"] += 1
        exact = (Decimal(major) - Decimal(drill)) / (Decimal("0.0068") * Decimal(pitch))
        assert abs(exact - Decimal(percent)) < Decimal("0.01"), text


def _alone(finding):
    """The drill, in its unit, with what it is above."""
    size = re.search(r"\(([\d.]+).(in|mm)\)", finding.planned)
    return [(size[1], size[2], off, unit) for off, unit in _ALONE.findall(finding.text)]


def test_sums_and_differences_hold():
    seen = Counter()
    for finding in _found():
        _check(finding, seen)
    told = {"sum", "left", "formed", "drill_too_large above", "drill_too_small below", "tap_limit_too_high above",
            "tap_limit_too_low below", "tap_overtapped above"}  # fmt: skip
    assert told <= set(seen), seen
    assert seen["sum"] > 20


@every(("chamfer", "least", "most"), [("bottoming", "1", "2"), ("plug", "3", "5"), ("taper", "7", "10")])
def test_a_chamfer_needs_its_shortest_end_and_wants_its_longest(chamfer, least, most):
    """ASME B94.9: bottoming 1 to 2 threads, plug 3 to 5, taper 7 to 10. 0.75 in of full thread, 1/13 in of pitch."""
    for turns, severity in ((least, "error"), (most, "warning")):
        needed = Decimal("0.75") + Decimal(turns) / 13
        for depth, told in ((needed - Decimal("0.002"), True), (needed + Decimal("0.001"), False)):
            hole = Hole("blind", full_thread_depth=_in("0.75"))
            plan = _plan(hole=hole, depth=Length(depth.quantize(Decimal("0.0001")), "in"), chamfer=chamfer)
            said = [
                one for one in audit(plan).findings if one.code == "tap_chamfer_no_room" and one.severity == severity
            ]
            assert bool(said) is told, (depth, severity)
            assert not told or f"+ {turns} threads of {chamfer} chamfer" in said[0].text
