"""The part material, and the hole: its depths and what the tools must reach."""

from __future__ import annotations

from .reply_fields import angle, exact, length, physical, section, texts, word
from .schema import SectionSchema, the_record


class HardnessItem(SectionSchema):
    """Hardness on two scales."""

    hb = exact("Brinell hardness, null where it is not known", "HB", "hardness", source="hardness_hb", nullable=True)
    hrc = exact(
        "Rockwell C hardness, null where it does not apply", "HRC", "hardness", source="hardness_hrc", nullable=True
    )


class MaterialSection(SectionSchema):
    """The part material as far as it is known."""

    name = word("Name.")
    family = word("Family.", nullable=True)
    iso_group = word("ISO 513 group letter.", nullable=True)
    chip_type = word("long or short.", nullable=True)
    hardness = section("Hardness.", HardnessItem, source=the_record)
    tensile_strength = physical("Tensile strength", "stress", source="tensile_strength_mpa", nullable=True)
    yield_strength = physical("Yield strength", "stress", source="yield_strength_mpa", nullable=True)
    shear_strength = physical("Shear strength", "stress", source="shear_strength_mpa", nullable=True)
    value_basis = word("Whether the strengths are minimum or typical.", nullable=True)


class DepthsSection(SectionSchema):
    """Depths from the entry face."""

    drill_depth = length("Depth of full drill diameter")
    drill_tip_depth = length("Depth of the drill's tip")
    full_thread_depth = length("Depth of full thread")
    tap_travel = length(
        "Travel of the tap's tip past the face; of a taper pipe tap to its gauge line, whatever the wall"
    )
    chamfer_length = length("Length of the chamfer of the last tap")
    countersink_diameter = length("Diameter of the countersink")
    countersink_angle = angle("Included angle of the countersink", source="countersink_angle_deg")
    counterbore_diameter = length("Diameter of the counterbore or spotface; only where there is one", present=False)
    counterbore_depth = length("Depth of the counterbore; left out for a spotface without depth", present=False)
    breakthrough = length("How far the drill's tip passes the far face, null for a blind hole", nullable=True)
    wall_left = length("Wall left under the drill's tip, null where no wall was given", nullable=True)


class ToolReachItem(SectionSchema):
    """A standard tool that reaches the bottom; the sources say which lengths are published."""

    kind = word("standard or extended for a tap, jobber or long for a drill.")
    document = word("Standard that gives the length.")
    overall_length = length("Overall length")
    cutting_length = length("Length of thread of a tap, of flutes of a drill, null where not held", nullable=True)
    shank_diameter = length("Diameter of the shank, null where not held", nullable=True)
    left_for_holder = length("Overall length less reach")


class ReachSection(SectionSchema):
    """What the tools must reach and pass."""

    access_depth = length("Depth of the access above the entry face")
    clearance_diameter = length("Diameter free above the entry face, null where none was given", nullable=True)
    drill_reach = length("Reach of the drill from the top of the access")
    tap_reach = length("Reach of the tap from the top of the access")
    length = word("standard or extended tools.")
    shank = word("standard, or small_shank: a shank that passes the clearance and the thread.")
    drill = section("Shortest drill that reaches, null where no such length is held.", ToolReachItem, nullable=True)
    tap = section("Shortest tap that reaches, null where no such length is held.", ToolReachItem, nullable=True)
    advice = texts("The tools that are needed, in words; empty where the usual tools reach an open hole.")
