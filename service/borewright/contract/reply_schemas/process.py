"""Schemas of cutting data, strength, gauges, chance of acceptance and drill comparison."""

from __future__ import annotations

from borewright.contract.fields.composites import ReplySchema
from borewright.contract.fields.strict import Choice

from .base import figure, length, limits, section, text, texts

FORCE, TORQUE, POWER = "in `units.force`", "in `units.torque`", "in `units.power`"
SPEED, FEED = "in `units.cutting_speed`", "in `units.feed`"


class SpeedRange(ReplySchema):
    """Range of a cutting speed."""

    min = figure("Low end", SPEED)
    max = figure("High end", SPEED)


class TorqueBand(ReplySchema):
    """A torque that is only known within limits: the model is not validated."""

    value = figure("Middle of the band", TORQUE)
    low = figure("Low end", TORQUE)
    high = figure("High end", TORQUE)


class RatioBand(ReplySchema):
    """A ratio that is only known within limits."""

    value = figure("Middle of the band", "a ratio")
    low = figure("Low end", "a ratio")
    high = figure("High end", "a ratio")


class PeckItem(ReplySchema):
    """Peck advice."""

    depth_over_diameter = figure("Drilled depth over diameter", "a ratio")
    first = length("First peck, null where the hole is drilled in one go", nullable=True)
    next = length("Following pecks, null where the hole is drilled in one go", nullable=True)
    count = figure("Number of pecks", "a count", whole=True)


class DrillCutItem(ReplySchema):
    """Cutting data of the drill; forces are null where no constant is held."""

    cutting_speed = figure("Cutting speed used", SPEED)
    cutting_speed_range = section("Range of the source.", SpeedRange)
    spindle_speed = figure("Spindle speed", "in rev/min", whole=True)
    feed = figure("Feed", FEED)
    torque = figure("Torque", TORQUE, nullable=True)
    power = figure("Power", POWER, nullable=True)
    thrust = figure("Thrust", FORCE, nullable=True)
    time = figure("Time of the cut", "in seconds")
    peck = section("Peck advice by depth.", PeckItem)


class TapCutItem(ReplySchema):
    """Cutting data of the tap; null where nothing is held or the tap is driven by hand."""

    cutting_speed = figure("Cutting speed used", SPEED, nullable=True)
    cutting_speed_range = section("Range of the source.", SpeedRange, nullable=True)
    spindle_speed = figure("Spindle speed", "in rev/min", nullable=True, whole=True)
    feed = figure("Feed: the lead of the thread", FEED)
    torque = section("Tapping torque, a warning aid, never a guarantee.", TorqueBand, nullable=True)
    breaking_torque = section("Torque that may break the tap.", TorqueBand, nullable=True)
    break_margin = section("Breaking torque over tapping torque.", RatioBand, nullable=True)
    clutch_torque = figure("Clutch setting", TORQUE, nullable=True)
    power = figure("Power", POWER, nullable=True)
    time = figure("Time in and out", "in seconds", nullable=True)


class FluidItem(ReplySchema):
    """Cutting fluid."""

    drilling = text("Fluid for drilling.")
    tapping = text("Fluid for tapping.")


class CuttingDataSection(ReplySchema):
    """Cutting data of drill and tap."""

    drill = section("The drill; null where the tables hold nothing for the material.", DrillCutItem, nullable=True)
    tap = section("The tap; null where the tables hold nothing for the material.", TapCutItem, nullable=True)
    fluid = section("Cutting fluid; null where none is held.", FluidItem, nullable=True)


class StrengthSection(ReplySchema):
    """Strength of the joint with the screw whose grade was given."""

    length_of_engagement = length("Length of engagement")
    complete_length = length("Engagement that counts: complete threads, capped")
    required_length = length("Engagement at which the screw breaks before a thread strips")
    screw_grade = text("Grade of the screw as read.")
    screw_tensile_force = figure("Force that breaks the screw", FORCE)
    internal_strip_force = figure("Force that strips the tapped thread", FORCE)
    external_strip_force = figure("Force that strips the screw's thread", FORCE)
    fails_first = Choice("Which member fails first.", ("screw", "internal_thread", "external_thread"), required=True)
    safety_factor = figure("Smaller strip force over the screw's tensile force", "a ratio")


class ThreadMemberItem(ReplySchema):
    """One end of a thread plug: the zone its maker may use."""

    pitch_diameter = limits("Pitch diameter")
    major_diameter = limits("Major diameter, null where no tolerance is held", nullable=True)
    wear_limit = length("Pitch diameter below which it is scrapped, null where none is held", nullable=True)


class ThreadPlugItem(ReplySchema):
    """GO and NOT GO thread plugs."""

    system = text("Gauging system: asme or iso.", nullable=True)
    tolerance = text("Rule of the makers' zones, null where none is held.", nullable=True)
    go = section("GO member.", ThreadMemberItem)
    not_go = section("NOT GO member.", ThreadMemberItem)


class PlainPlugItem(ReplySchema):
    """GO and NOT GO plain plugs for the minor diameter."""

    plug_class = text("Class of the plug by the 10 percent rule.", nullable=True, data_key="class")
    go = limits("GO plug")
    not_go = limits("NOT GO plug")


class GaugeSetItem(ReplySchema):
    """Gauges for one state of the part."""

    thread_plug = section("Thread plugs; null where limits are open.", ThreadPlugItem, nullable=True)
    plain_plug = section("Plain plugs; null where limits are open.", PlainPlugItem, nullable=True)


class GaugingSection(ReplySchema):
    """Gauges of the finished thread."""

    thread_plug = section("Thread plugs; null where limits are open.", ThreadPlugItem, nullable=True)
    plain_plug = section("Plain plugs; null where limits are open.", PlainPlugItem, nullable=True)
    before_finish = section("Gauges before the finish; null where they are the same.", GaugeSetItem, nullable=True)
    acceptance = texts("Rule of acceptance in words.")


class AcceptanceSection(ReplySchema):
    """Chance that the sizes end inside their limits, from 0 to 1; null where a distribution is not known."""

    minor_diameter = figure("Chance for the minor diameter", "from 0 to 1", nullable=True)
    pitch_diameter = figure("Chance for the pitch diameter", "from 0 to 1", nullable=True)
    both = figure("Chance for both", "from 0 to 1", nullable=True)
    model = text("The distributions behind it, in words.")


class DrillOption(ReplySchema):
    """One of two drills with what it leads to."""

    label = text("Label of the trade.")
    diameter = length("Diameter")
    hole_diameter = length("Hole expected")
    expected_percent_thread = figure("Percent of thread expected", "percent on `percent_basis`", nullable=True)
    torque = section("Tapping torque.", TorqueBand, nullable=True)
    break_margin = section("Breaking torque over tapping torque.", RatioBand, nullable=True)
    safety_factor = figure("Smaller strip force over the screw's tensile force", "a ratio", nullable=True)
    fails_first = text("Which member fails first.", nullable=True)
    acceptance = figure("Chance for the minor diameter", "from 0 to 1", nullable=True)


class ComparisonSection(ReplySchema):
    """The chart's drill against the least-torque drill."""

    chart = section("The chart's drill.", DrillOption)
    least_torque = section("The least-torque drill.", DrillOption)
    torque_ratio = figure("Torque of the second over the first", "a ratio")
    strength_ratio = figure("Strength of the second over the first", "a ratio", nullable=True)
    margin_gained = figure("Growth of the break margin", "a share")
    reasons = texts("What is gained and what it costs.")
