"""Plans of holes and what the audit finds in them, whole, and the thread that most of them have.

1/2-13 UNC-2B (ASME B1.1): minor diameter 0.417 to 0.434 in, pitch diameter 0.4500 to 0.4565 in.
Mean oversize of drills: FED-STD-H28/2B Table II.A.1 (0.0047 in about 7/16). A tap cuts 0.15 of 0.0065 in oversize.
H limits (ASME B94.9): number n ends n x 0.0005 in over basic, and begins 0.0005 in below that.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout
from borewright.core.audit import AsPlanned, AuditRequest, Finding, PlannedTap, audit
from borewright.core.model import Hole, Length, MaterialInput
from borewright.core.quantity_text import NO_BREAK
from borewright.core.requests import HoleSpecRequest

UNC, H5 = "1/2-13 UNC-2B", "1/2-13 NC HSS G H5"
THROUGH = Hole("through", thickness=Length(Decimal("0.5"), "in"))
MINOR, PITCH = "0.417 to 0.434 in, e.g. 27/64", "0.4500 to 0.4565 in, e.g. H5"


def findings(thread=UNC, drill="27/64", tap=H5, hole=THROUGH, material=None, second=None, asked=(), **planned):
    """The findings without what only repeats the specification's own decisions and cautions."""
    named = {} if material is None else {"material": MaterialInput(name=material)}
    request = HoleSpecRequest(callout.read(thread), hole, **named, **dict(asked))
    taps = {"tap": tap if isinstance(tap, PlannedTap) else PlannedTap(tap)}
    plan = AsPlanned(drill, **taps, second_tap=None if second is None else PlannedTap(second), **planned)
    said = audit(AuditRequest(request, plan)).findings
    own = [one for one in said if one.code != "cautioned" and one.expected != "as a person decides"]
    return [tuple(getattr(one, name).replace(NO_BREAK, " ") for name in Finding.__slots__) for one in own]


def inch(depth):
    return Length(Decimal(depth), "in")


def mm(depth):
    return Length(Decimal(depth), "mm")
