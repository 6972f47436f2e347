"""Gauges that accept the thread, and the chance that they do."""

from __future__ import annotations

from .reply_fields import chance, length, limits, section, texts, word
from .schema import SectionSchema


class ThreadMemberItem(SectionSchema):
    """One end of a thread plug: the zone its maker may use."""

    pitch_diameter = limits("Pitch diameter")
    major_diameter = limits("Major diameter, null where no tolerance is held", nullable=True)
    wear_limit = length("Pitch diameter below which it is scrapped, null where none is held", nullable=True)


class ThreadPlugItem(SectionSchema):
    """GO and NOT GO thread plugs."""

    system = word("Gauging system: asme or iso.", nullable=True)
    tolerance = word("Rule of the makers' zones, null where none is held.", nullable=True)
    go = section("GO member.", ThreadMemberItem)
    not_go = section("NOT GO member.", ThreadMemberItem)


class PlainPlugItem(SectionSchema):
    """GO and NOT GO plain plugs for the minor diameter."""

    plug_class = word(
        "Class of the plug by the 10 percent rule.", source="gauge_class", nullable=True, data_key="class"
    )
    go = limits("GO plug")
    not_go = limits("NOT GO plug")


class GaugeSetItem(SectionSchema):
    """Gauges for one state of the part."""

    thread_plug = section("Thread plugs; null where limits are open.", ThreadPlugItem, nullable=True)
    plain_plug = section("Plain plugs; null where limits are open.", PlainPlugItem, nullable=True)


class GaugingSection(GaugeSetItem):
    """Gauges of the finished thread."""

    inherited_from = "finished"

    before_finish = section("Gauges before the finish; null where they are the same.", GaugeSetItem, nullable=True)
    acceptance = texts("Rule of acceptance in words.")


class AcceptanceSection(SectionSchema):
    """Chance that the sizes end inside their limits, from 0 to 1; null where a distribution is not known."""

    minor_diameter = chance("Chance for the minor diameter", nullable=True)
    pitch_diameter = chance("Chance for the pitch diameter", nullable=True)
    both = chance("Chance for both", nullable=True)
    model = word("The distributions behind it, in words.")
