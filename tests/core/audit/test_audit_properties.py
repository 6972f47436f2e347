"""What must always hold: a plan that follows the specification is never rejected, an audit never fails otherwise."""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout, standards
from borewright.core.audit import AsPlanned, AuditRequest, PlannedTap, audit
from borewright.core.errors import BorewrightError
from borewright.core.model import FinishInput, Hole, Length, MaterialInput
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest
from borewright.core.standards import systems
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

DESIGNATIONS = sorted({entry.designation for entry in standards.catalogue()})
#: Common practice: a thread of over 2 in, other than of a pipe, is not tapped, so no tap of it is planned.
TAPPED = sorted(
    {
        entry.designation
        for entry in standards.catalogue()
        if Length(entry.nominal_diameter, entry.unit).to("in") <= 2 or systems.of(entry.system).traits.is_pipe
    }
)
MATERIALS = (None, "4140", "4140 at 45 HRC", "6061-T6", "304", "class 30 grey iron", "Ti-6Al-4V", "C360", "acetal")
FINISHES = (None, None, "ASTM B633 Fe/Zn 5", "ASTM B633 Fe/Zn 12", "hot-dip galvanized ASTM F2329", "ISO 10684")


TENTHS_OF_A_DIAMETER = st.integers(min_value=5, max_value=30)
ANY_THREAD, ANY_MATERIAL, ANY_FINISH = (st.sampled_from(one) for one in (TAPPED, MATERIALS, FINISHES))
KINDS, METHODS = st.sampled_from(["blind", "through"]), st.sampled_from(["cut", "cut", "form"])
OBJECTIVES = st.sampled_from(["chart", "least_torque"])


@st.composite
def requests(draw):
    diameters = Decimal(draw(TENTHS_OF_A_DIAMETER)) / 10
    designation = draw(ANY_THREAD)
    thread = standards.resolve(callout.read(designation))
    depth = Length((diameters * thread.nominal_diameter).quantize(Decimal("0.001")), thread.unit)
    kind = draw(KINDS)
    hole = Hole("blind", full_thread_depth=depth) if kind == "blind" else Hole("through", thickness=depth)
    material, finish = draw(ANY_MATERIAL), draw(ANY_FINISH)
    return HoleSpecRequest(
        callout.read(designation),
        hole,
        material=None if material is None else MaterialInput(name=material),
        finish=None if finish is None else FinishInput(text=finish),
        method=draw(METHODS),
        objective=draw(OBJECTIVES),
    )


def planned(tap):
    return PlannedTap(tap.marking, None, tap.style, tap.chamfer.name)


def as_specified(spec):
    second = spec.tap.second_tap
    return AsPlanned(
        drill=spec.drill.recommended.drill.label,
        tap=planned(spec.tap.recommended),
        second_tap=None if second is None else planned(second),
        drill_depth=Length(spec.depths.drill_depth, spec.thread.unit),
        operations_order=tuple(one.line.operation for one in spec.operations),
    )


#: A least torque drill under the chart's, found by one seed of many.
LARGE_TAPER = HoleSpecRequest(
    callout.read("4-8 NPT"), Hole("through", thickness=Length(Decimal(2), "in")), objective="least_torque"
)


@given(requests())
@example(LARGE_TAPER)
@settings(max_examples=150)
def test_the_own_plan_is_accepted_exactly_when_it_is_ready(request):
    try:
        spec = specify(request)
    except BorewrightError:
        assume(False)
    assume(spec.tap is not None and spec.drill is not None)
    found = audit(AuditRequest(request, as_specified(spec)))
    said = [(finding.code, finding.severity) for finding in found.findings if finding.severity != "info"]
    assert (found.verdict == "accept") == (spec.verdict == "ready"), (said, [one.code for one in spec.review])
    if spec.verdict != "infeasible":
        assert found.verdict != "reject", said


@given(
    drill=st.text(max_size=12) | st.sampled_from(["27/64", "6.8 mm", "#7", "Z"]),
    tap=st.text(max_size=30) | st.sampled_from(["M8 D5", "1/2-13 NC HSS G H3", "Rc 1/2", "G 1/4"]),
    limit=st.none() | st.text(max_size=6) | st.sampled_from(["H3", "D5", "ISO 2"]),
    thread=st.sampled_from(DESIGNATIONS),
)
@settings(max_examples=120)
def test_any_plan_is_judged(drill, tap, limit, thread):
    hole = Hole("through", thickness=Length(Decimal(1), "in"))
    try:
        specify(HoleSpecRequest(callout.read(thread), hole))
    except BorewrightError:
        assume(False)
    found = audit(
        AuditRequest(HoleSpecRequest(callout.read(thread), hole), AsPlanned(drill, PlannedTap(tap, limit=limit)))
    )
    severities = {finding.severity for finding in found.findings}
    expected = "reject" if "error" in severities else "review" if "warning" in severities else "accept"
    assert found.verdict == expected
