"""The choice of a tap, and its marking."""

from __future__ import annotations

from typing import NamedTuple

from borewright.core.model import STATUSES, Range, Tap, TapChamfer, TapChoice
from borewright.core.model.decision import Decision
from borewright.core.model.notes import NO_NOTES
from borewright.core.plan import specification

from .note_items import DecisionItem
from .reply import Part, Reply
from .reply_fields import (
    Span,
    chance,
    choice,
    flag,
    length,
    limits,
    rows,
    section,
    shared_rows,
    text,
    texts,
    word,
    words,
)
from .schema import FieldRows, ReplyField, SectionSchema
from .thread import ThreadSection


class TapLimitItem(SectionSchema):
    """Pitch-diameter limit of a tap."""

    label = word("Label: H3, L1, D5, ISO 2 ...")
    pitch_diameter = limits("Pitch diameter of the tap")
    status = choice("How well the limit is known.", tuple(STATUSES))


class FitItem(SectionSchema):
    """The arithmetic that chose a limit: the tap's band and the cut's oversize inside the limits to be made."""

    limits = limits("Pitch diameter to be made")
    cut_oversize = length("Expected cut over the tap's own diameter")
    largest_cut = length("Largest tap plus cut oversize")
    margin_above_min = length("Smallest tap less lower limit")
    margin_below_max = length("Upper limit less largest cut")


def _threads(chamfer: TapChamfer) -> Range:
    return Range(chamfer.threads_min, chamfer.threads_max)


class ChamferItem(SectionSchema):
    """Chamfer of a tap."""

    name = word("taper, plug, semi_bottoming or bottoming; taper_pipe of a taper pipe tap, which has none of these.")
    threads = section("Length of the chamfer in threads, a count.", Span, source=_threads)


def availability() -> ReplyField:
    """The field that says whether a tap is listed."""
    return choice("standard: makers list it. special: it is made to order.", ("standard", "special"))


def order_text() -> ReplyField:
    """The field that holds the ordering words of a special tap."""
    return text("What to order a special by; null for a standard tap.", nullable=True)


def equivalents() -> FieldRows:
    """The field that holds the limits of other systems."""
    return rows("Limits of the other systems that hold the same limits of the thread.", TapLimitItem)


class TapItem(SectionSchema):
    """A tap."""

    style = word("spiral_point, spiral_flute, straight_flute, forming, interrupted, taper_pipe ...")
    chamfer = section("Chamfer.", ChamferItem)
    limit = section("Pitch-diameter limit, null where the system has none.", TapLimitItem, nullable=True)
    fit = section("The arithmetic of the limit.", FitItem, nullable=True)
    substrate = word("Tool material.")
    surface = word("Surface treatment.")
    marking = word("What to look for on the shank.")
    acceptance = chance(
        "Chance that the pitch diameter ends inside the limits, null where it is not known", nullable=True
    )
    in_stock = flag("Whether the crib has it; null when no crib was given.", nullable=True)
    availability = availability()
    order_text = order_text()
    equivalents = equivalents()
    reasons = texts("Why it was chosen.")


class TapWithSecond(NamedTuple):
    """The tap that cuts first, and the one that finishes what it cannot reach; None where one tap does."""

    tap: Tap
    second_tap: Tap | None = None


class RecommendedTap(TapItem):
    """The tap that cuts first, with the one that finishes what it cannot reach."""

    inherited_from = "tap"

    second_tap = section("Tap that finishes the thread, null where one tap does.", TapItem, nullable=True)


class RejectedTapItem(SectionSchema):
    """A tap limit or style that was not taken."""

    label = word("Limit or style.")
    reason = text("Why not.")


class LimitsToMake(SectionSchema):
    """What the tap must make."""

    pitch_diameter = limits("Pitch diameter, before the finish or oversize where that applies", source="limits")


def _recommended(choice: TapChoice) -> TapWithSecond:
    return TapWithSecond(choice.recommended, choice.second_tap)


class TapSection(SectionSchema):
    """The choice of a tap."""

    thread = word("Designation of the thread.")
    limits_to_make = section(
        "What the tap must make, null where no limit was chosen.",
        LimitsToMake,
        source="recommended.fit",
        nullable=True,
    )
    recommended = section("The tap.", RecommendedTap, source=_recommended)
    alternatives = shared_rows("Other taps that do, best first.", RecommendedTap, record=TapWithSecond)
    rejected = shared_rows("Limits and styles that were looked at and not taken.", RejectedTapItem)


def _left_to_a_person(reply: specification.TapResult) -> tuple[Decision, ...]:
    return specification.review(NO_NOTES, reply.thread, reply.allowance, reply.tap, reply)


class TapReply(TapSection, Reply):
    """Reply of POST /v1/taps/recommend."""

    inherited_from = "tap"

    review = rows(
        "What a person must decide about the tap, most important first.", DecisionItem, source=_left_to_a_person
    )


class HoldItem(SectionSchema):
    """An internal class that the tap can make."""

    thread_class = word("Class of the internal thread.", data_key="class")
    margin = length("The smaller of the margins to the two limits of the class")
    fit = section("The arithmetic of the margin.", FitItem)


class TapDecodeReply(Reply):
    """Reply of POST /v1/taps/decode."""

    marking = word("The marking as it was given.")
    thread = Part("The thread that the tap cuts.", ThreadSection, shared=True)
    style = word("Style of the tap, null where it is not marked.", nullable=True)
    substrate = word("Tool material, null where it is not marked.", nullable=True)
    ground = flag("Whether the thread of the tap is ground.")
    limit = section(
        "Pitch-diameter limit, null where none is marked. A maker's own position (6HX) has a label and no limits.",
        TapLimitItem,
        nullable=True,
    )
    hand = choice("Hand of the thread.", ("right", "left"))
    surface = word("Surface treatment, null where it is not marked.", nullable=True)
    chamfer = section("Chamfer, null where it is not marked.", ChamferItem, nullable=True)
    holds = rows("Internal classes that the tap can make, best margin first.", HoldItem)
    unread = words("Words of the marking that were not understood.")
