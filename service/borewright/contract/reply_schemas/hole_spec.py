"""Schema of the complete specification of a tapped hole."""

from __future__ import annotations

from borewright.contract import verdicts
from borewright.contract.fields.composites import ReplySchema
from borewright.contract.fields.strict import Choice, Number

from .base import STRESS, DecisionItem, DiameterLimits, Free, Reply, figure, length, rows, section, text, texts
from .drill import DrillSection
from .finish import FinishSection
from .process import AcceptanceSection, ComparisonSection, CuttingDataSection, GaugingSection, StrengthSection
from .tap import TapSection
from .thread import ThreadSection


class HardnessItem(ReplySchema):
    """Hardness on two scales."""

    hb = figure("Brinell hardness, null where it is not known", "HB", nullable=True)
    hrc = figure("Rockwell C hardness, null where it does not apply", "HRC", nullable=True)


class MaterialSection(ReplySchema):
    """The part material as far as it is known."""

    name = text("Name.")
    family = text("Family.", nullable=True)
    iso_group = text("ISO 513 group letter.", nullable=True)
    chip_type = text("long or short.", nullable=True)
    hardness = section("Hardness.", HardnessItem)
    tensile_strength = figure("Tensile strength", STRESS, nullable=True)
    yield_strength = figure("Yield strength", STRESS, nullable=True)
    shear_strength = figure("Shear strength", STRESS, nullable=True)
    value_basis = text("Whether the strengths are minimum or typical.", nullable=True)


class DepthsSection(ReplySchema):
    """Depths from the entry face."""

    drill_depth = length("Depth of full drill diameter")
    drill_tip_depth = length("Depth of the drill's tip")
    full_thread_depth = length("Depth of full thread")
    tap_travel = length(
        "Travel of the tap's tip past the face; of a taper pipe tap to its gauge line, whatever the wall"
    )
    chamfer_length = length("Length of the chamfer of the last tap")
    countersink_diameter = length("Diameter of the countersink")
    countersink_angle = figure("Included angle of the countersink", "in degrees")
    breakthrough = length("How far the drill's tip passes the far face, null for a blind hole", nullable=True)
    wall_left = length("Wall left under the drill's tip, null where no wall was given", nullable=True)


class ToolReachItem(ReplySchema):
    """A standard tool that reaches the bottom; the sources say which lengths are published."""

    kind = text("standard or extended for a tap, jobber or long for a drill.")
    document = text("Standard that gives the length.")
    overall_length = length("Overall length")
    cutting_length = length("Length of thread of a tap, of flutes of a drill, null where not held", nullable=True)
    shank_diameter = length("Diameter of the shank, null where not held", nullable=True)
    left_for_holder = length("Overall length less reach")


class ReachSection(ReplySchema):
    """What the tools must reach and pass."""

    access_depth = length("Depth of the access above the entry face")
    clearance_diameter = length("Diameter free above the entry face, null where none was given", nullable=True)
    drill_reach = length("Reach of the drill from the top of the access")
    tap_reach = length("Reach of the tap from the top of the access")
    length = text("standard or extended tools.")
    shank = text("standard, or small_shank: a shank that passes the clearance and the thread.")
    drill = section("Shortest drill that reaches, null where no such length is held.", ToolReachItem, nullable=True)
    tap = section("Shortest tap that reaches, null where no such length is held.", ToolReachItem, nullable=True)
    advice = texts("The tools that are needed, in words; empty where the usual tools reach an open hole.")


class OperationItem(ReplySchema):
    """One line of a routing."""

    sequence = figure("Number of the line", "by tens", whole=True)
    operation = text(
        "spot_drill, pilot_drill, drill, ream, bore, countersink, tap, thread_mill, single_point_thread, harden,"
        " finish, mask, inspect ..."
    )
    tool = Free("The tool; lengths in `units.length`, angles in degrees.", required=True)
    parameters = Free("What it does; lengths in `units.length`.", required=True)
    time = Number("Time of the operation, in seconds; present where it is computed.", nullable=False)
    text = text("The line as it can be printed, in the units of the reply.")


class HeadlineSection(ReplySchema):
    """The hole on a card at the machine: five short texts in the units of the reply."""

    drill = text("Drill, and how deep.")
    tap = text("Tap, or what makes the thread instead.")
    depth = text("Full thread and drilled depth.")
    speed = text("Speeds and feed, or that none are held.")
    gauge = text("What is gauged after tapping.")


class PurposeLimitsSection(ReplySchema):
    """The limits by what they are for."""

    to_tap = section("What the tap must make.", DiameterLimits)
    finished = section("What the finished part has.", DiameterLimits)
    gauge_now = Choice("Which of the two is gauged after tapping.", ("to_tap", "finished"), required=True)


class HoleSpecReply(Reply):
    """Reply of POST /v1/hole-specs."""

    id = text("The caller's own name of the hole.", nullable=True)
    spec_id = text("Name of this specification: a hash of the canonical request and `rules_version`.")
    verdict = Choice(
        "ready: nothing is left to decide. review: a person decides what `review` lists. infeasible: no plan holds the"
        " drawing; drill and tap are null or belong to the plan named in `review`.",
        verdicts.HOLE,
        required=True,
    )
    review = rows("What a person must decide, most important first; empty where the verdict is ready.", DecisionItem)
    headline = section("The hole on a card at the machine.", HeadlineSection)
    limits = section("The limits by what they are for.", PurposeLimitsSection)
    thread = section("The thread, as POST /v1/threads/resolve answers it.", ThreadSection)
    finish = section(
        "The finish, as POST /v1/allowances answers it; null without finish.", FinishSection, nullable=True
    )
    material = section("The part material; null where none was given.", MaterialSection, nullable=True)
    drill = section(
        "The drill, as POST /v1/drills/recommend answers it; null where nothing can be planned.",
        DrillSection,
        nullable=True,
    )
    tap = section(
        "The tap, as POST /v1/taps/recommend answers it; null where the thread is milled or single-pointed, or where"
        " nothing can be planned.",
        TapSection,
        nullable=True,
    )
    depths = section("Depths from the entry face.", DepthsSection)
    reach = section(
        "Reach of the tools, checked for every hole; null only where no drill is planned.", ReachSection, nullable=True
    )
    cutting_data = section(
        "Cutting data of drill and tap; null without material or where nothing is held for it.",
        CuttingDataSection,
        nullable=True,
    )
    strength = section(
        "Strength of the joint; null unless `mating_screw.grade` is given and the part's strength is known.",
        StrengthSection,
        nullable=True,
    )
    gauging = section("Gauges that accept the thread.", GaugingSection)
    acceptance = section("Chance that the sizes end inside their limits.", AcceptanceSection)
    comparison = section(
        "The chart's drill against the least-torque drill; null unless `objective` asks for it.",
        ComparisonSection,
        nullable=True,
    )
    operations = rows("The operations of the hole in shop order.", OperationItem)
