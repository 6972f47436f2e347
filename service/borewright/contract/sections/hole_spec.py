"""The complete specification of a tapped hole."""

from __future__ import annotations

from functools import partial

from borewright.contract import verdicts
from borewright.contract.spec_id import spec_id

from .cutting_data import CuttingDataSection
from .drill import DrillSection
from .finish import FinishSection
from .gauging import AcceptanceSection, GaugingSection
from .hole import DepthsSection, MaterialSection, ReachSection
from .note_items import DecisionItem
from .operations import HeadlineSection, OperationItem, operation_texts
from .reply import Part, Reply, WrittenRows
from .reply_fields import STRING, DiameterLimits, choice, rows, section, word
from .schema import ReplyField, SectionSchema
from .strength import ComparisonSection, StrengthSection
from .tap import TapSection
from .thread import ThreadSection


class PurposeLimitsSection(SectionSchema):
    """The limits by what they are for."""

    to_tap = section("What the tap must make.", DiameterLimits)
    finished = section("What the finished part has.", DiameterLimits)
    gauge_now = choice("Which of the two is gauged after tapping.", ("to_tap", "finished"))


class HoleSpecReply(Reply):
    """Reply of POST /v1/hole-specs."""

    id = word("The caller's own name of the hole.", source="request.id", nullable=True)
    spec_id = ReplyField(
        "Name of this specification: a hash of the canonical request and `rules_version`.",
        STRING,
        source="request",
        show=lambda figures: lambda request: spec_id(request, figures.asked),
    )
    verdict = choice(
        "ready: nothing is left to decide. review: a person decides what `review` lists. infeasible: no plan holds the"
        " drawing; drill and tap are null or belong to the plan named in `review`.",
        verdicts.HOLE,
    )
    review = rows("What a person must decide, most important first; empty where the verdict is ready.", DecisionItem)
    headline = section("The hole on a card at the machine.", HeadlineSection)
    limits = section("The limits by what they are for.", PurposeLimitsSection)
    thread = Part("The thread, as POST /v1/threads/resolve answers it.", ThreadSection, shared=True)
    finish = Part(
        "The finish, as POST /v1/allowances answers it; null without finish.",
        FinishSection,
        shared=True,
        source="allowance",
        nullable=True,
    )
    material = Part(
        "The part material; null where none was given.", MaterialSection, shared=True, noted=False, nullable=True
    )
    drill = Part(
        "The drill, as POST /v1/drills/recommend answers it; null where nothing can be planned.",
        DrillSection,
        shared=True,
        nullable=True,
    )
    tap = Part(
        "The tap, as POST /v1/taps/recommend answers it; null where the thread is milled or single-pointed, or where"
        " nothing can be planned.",
        TapSection,
        shared=True,
        nullable=True,
    )
    depths = Part("Depths from the entry face.", DepthsSection)
    reach = Part(
        "Reach of the tools, checked for every hole; null only where no drill is planned.", ReachSection, nullable=True
    )
    cutting_data = Part(
        "Cutting data of drill and tap; null without material or where nothing is held for it.",
        CuttingDataSection,
        source="process.cutting",
        sources_of="tools",
        nullable=True,
    )
    strength = Part(
        "Strength of the joint; null unless `mating_screw.grade` is given and the part's strength is known.",
        StrengthSection,
        source="process.strength",
        nullable=True,
    )
    gauging = Part("Gauges that accept the thread.", GaugingSection, shared=True, source="process.gauging")
    acceptance = Part(
        "Chance that the sizes end inside their limits.", AcceptanceSection, shared=True, source="process.acceptance"
    )
    comparison = Part(
        "The chart's drill against the least-torque drill; null unless `objective` asks for it.",
        ComparisonSection,
        source="process.comparison",
        nullable=True,
    )
    operations = WrittenRows(
        "The operations of the hole in shop order.",
        section("One of them.", OperationItem),
        partial(operation_texts, OperationItem),
    )
