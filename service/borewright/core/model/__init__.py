"""What the steps of a specification pass to each other: frozen, slotted dataclasses.

Lengths are :class:`decimal.Decimal` in the unit of the thread's own standard (``Thread.unit``), already
rounded as that standard prints them; a name without a unit suffix means exactly that, because one model
serves inch and millimetre standards alike. Each result carries a :class:`Notes` with its assumptions,
cautions, sources and derivation.
"""

from .drills import Drill, DrillCandidate, DrillChance, DrillChoice, PercentTarget, RejectedDrill
from .finishes import Allowance, DimensionsApply, Finish, FinishInput, Overtap
from .holes import Counterbore, Depths, Hole, StatedCountersink
from .materials import Material, MaterialInput
from .notes import Caution, Notes, Source, Step
from .quantities import MM_PER_INCH, Length, LengthRange, Range, Unit
from .status import STATUSES, Status, by_formula, weakest
from .taps import RejectedTap, Tap, TapChamfer, TapChoice, TapFit, TapLimit
from .threads import BasicDiameters, CatalogueEntry, Diameters, Hand, HoleText, Standard, Thread, ThreadCallout

__all__ = [
    "MM_PER_INCH",
    "STATUSES",
    "Allowance",
    "BasicDiameters",
    "CatalogueEntry",
    "Caution",
    "Counterbore",
    "Depths",
    "Diameters",
    "DimensionsApply",
    "Drill",
    "DrillCandidate",
    "DrillChance",
    "DrillChoice",
    "Finish",
    "FinishInput",
    "Hand",
    "Hole",
    "HoleText",
    "Length",
    "LengthRange",
    "Material",
    "MaterialInput",
    "Notes",
    "Overtap",
    "PercentTarget",
    "Range",
    "RejectedDrill",
    "RejectedTap",
    "Source",
    "Standard",
    "StatedCountersink",
    "Status",
    "Step",
    "Tap",
    "TapChamfer",
    "TapChoice",
    "TapFit",
    "TapLimit",
    "Thread",
    "ThreadCallout",
    "Unit",
    "by_formula",
    "weakest",
]
