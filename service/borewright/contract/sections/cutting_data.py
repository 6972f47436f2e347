"""Cutting data of drill and tap."""

from __future__ import annotations

from borewright.core.cutting.records import CuttingData

from .reply_fields import count, length_mm, physical, ratio, seconds, section, whole, word
from .schema import SectionSchema


class SpeedRange(SectionSchema):
    """Range of a cutting speed."""

    min = physical("Low end", "cutting_speed", source=lambda speeds: speeds[0])
    max = physical("High end", "cutting_speed", source=lambda speeds: speeds[1])


class TorqueBand(SectionSchema):
    """A torque that is only known within limits: the model is not validated."""

    value = physical("Middle of the band", "torque")
    low = physical("Low end", "torque")
    high = physical("High end", "torque")


class RatioBand(SectionSchema):
    """A ratio that is only known within limits."""

    value = ratio("Middle of the band")
    low = ratio("Low end")
    high = ratio("High end")


class PeckItem(SectionSchema):
    """Peck advice."""

    depth_over_diameter = ratio("Drilled depth over diameter")
    first = length_mm("First peck, null where the hole is drilled in one go", source="first_mm", nullable=True)
    next = length_mm("Following pecks, null where the hole is drilled in one go", source="next_mm", nullable=True)
    count = count("Number of pecks")


class DrillCutItem(SectionSchema):
    """Cutting data of the drill; forces are null where no constant is held."""

    cutting_speed = physical("Cutting speed used", "cutting_speed", source="tools.drill.cutting_speed_m_min")
    cutting_speed_range = section("Range of the source.", SpeedRange, source="tools.drill.speed_range_m_min")
    spindle_speed = whole("Spindle speed", "in rev/min", "spindle_speed", source="tools.drill.spindle_speed_rpm")
    feed = length_mm("Feed", dimension="feed", source="tools.drill.feed_mm_rev")
    torque = physical("Torque", "torque", source="tools.drill.torque_n_m", nullable=True)
    power = physical("Power", "power", source="tools.drill.power_kw", nullable=True)
    thrust = physical("Thrust", "force", source="tools.drill.thrust_n", nullable=True)
    time = seconds("Time of the cut", source="drill_time_s")
    peck = section("Peck advice by depth.", PeckItem)


class TapCutItem(SectionSchema):
    """Cutting data of the tap; null where nothing is held or the tap is driven by hand."""

    cutting_speed = physical(
        "Cutting speed used", "cutting_speed", source="tools.tap.cutting_speed_m_min", nullable=True
    )
    cutting_speed_range = section(
        "Range of the source.", SpeedRange, source="tools.tap.speed_range_m_min", nullable=True
    )
    spindle_speed = whole(
        "Spindle speed", "in rev/min", "spindle_speed", source="tools.tap.spindle_speed_rpm", nullable=True
    )
    feed = length_mm("Feed: the lead of the thread", dimension="feed", source="tools.tap.feed_mm_rev")
    torque = section(
        "Tapping torque, a warning aid, never a guarantee.", TorqueBand, source="tools.tap.torque", nullable=True
    )
    breaking_torque = section(
        "Torque that may break the tap.", TorqueBand, source="tools.tap.breaking_torque", nullable=True
    )
    break_margin = section(
        "Breaking torque over tapping torque.", RatioBand, source="tools.tap.break_margin", nullable=True
    )
    clutch_torque = physical("Clutch setting", "torque", source="tools.tap.clutch_torque_n_m", nullable=True)
    power = physical("Power", "power", source="tools.tap.power_kw", nullable=True)
    time = seconds("Time in and out", source="tap_time_s", nullable=True)


class FluidItem(SectionSchema):
    """Cutting fluid."""

    drilling = word("Fluid for drilling.")
    tapping = word("Fluid for tapping.")


def _drilled(data: CuttingData) -> CuttingData | None:
    return None if data.drill is None or data.peck is None else data


def _tapped(data: CuttingData) -> CuttingData | None:
    return None if data.tap is None else data


class CuttingDataSection(SectionSchema):
    """Cutting data of drill and tap."""

    drill = section(
        "The drill; null where the tables hold nothing for the material.", DrillCutItem, source=_drilled, nullable=True
    )
    tap = section(
        "The tap; null where the tables hold nothing for the material.", TapCutItem, source=_tapped, nullable=True
    )
    fluid = section("Cutting fluid; null where none is held.", FluidItem, source="tools.fluid", nullable=True)
