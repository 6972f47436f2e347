"""Schemas of the choice of a tap and of its marking."""

from __future__ import annotations

from borewright.contract.fields.composites import Array, ReplySchema
from borewright.contract.fields.strict import Choice

from .base import STATUSES, DecisionItem, Reply, Span, Words, figure, flag, length, limits, rows, section, text, texts
from .thread import ThreadSection


class TapLimitItem(ReplySchema):
    """Pitch-diameter limit of a tap."""

    label = text("Label: H3, L1, D5, ISO 2 ...")
    pitch_diameter = limits("Pitch diameter of the tap")
    status = Choice("How well the limit is known.", STATUSES, required=True)


class FitItem(ReplySchema):
    """The arithmetic that chose a limit: the tap's band and the cut's oversize inside the limits to be made."""

    limits = limits("Pitch diameter to be made")
    cut_oversize = length("Expected cut over the tap's own diameter")
    largest_cut = length("Largest tap plus cut oversize")
    margin_above_min = length("Smallest tap less lower limit")
    margin_below_max = length("Upper limit less largest cut")


class ChamferItem(ReplySchema):
    """Chamfer of a tap."""

    name = text("taper, plug, semi_bottoming or bottoming; taper_pipe of a taper pipe tap, which has none of these.")
    threads = section("Length of the chamfer in threads, a count.", Span)


def availability() -> Choice:
    """The field that says whether a tap is listed."""
    return Choice("standard: makers list it. special: it is made to order.", ("standard", "special"), required=True)


def order_text() -> Words:
    """The field that holds the ordering words of a special tap."""
    return text("What to order a special by; null for a standard tap.", nullable=True)


def equivalents() -> Array:
    """The field that holds the limits of other systems."""
    return rows("Limits of the other systems that hold the same limits of the thread.", TapLimitItem)


class TapItem(ReplySchema):
    """A tap."""

    style = text("spiral_point, spiral_flute, straight_flute, forming, interrupted, taper_pipe ...")
    chamfer = section("Chamfer.", ChamferItem)
    limit = section("Pitch-diameter limit, null where the system has none.", TapLimitItem, nullable=True)
    fit = section("The arithmetic of the limit.", FitItem, nullable=True)
    substrate = text("Tool material.")
    surface = text("Surface treatment.")
    marking = text("What to look for on the shank.")
    acceptance = figure(
        "Chance that the pitch diameter ends inside the limits, null where it is not known",
        "from 0 to 1",
        nullable=True,
    )
    in_stock = flag("Whether the crib has it; null when no crib was given.", nullable=True)
    availability = availability()
    order_text = order_text()
    equivalents = equivalents()
    reasons = texts("Why it was chosen.")


class RecommendedTap(TapItem):
    """The tap that cuts first, with the one that finishes what it cannot reach."""

    second_tap = section("Tap that finishes the thread, null where one tap does.", TapItem, nullable=True)


class RejectedTapItem(ReplySchema):
    """A tap limit or style that was not taken."""

    label = text("Limit or style.")
    reason = text("Why not.")


class LimitsToMake(ReplySchema):
    """What the tap must make."""

    pitch_diameter = limits("Pitch diameter, before the finish or oversize where that applies")


class TapSection(ReplySchema):
    """The choice of a tap."""

    thread = text("Designation of the thread.")
    limits_to_make = section("What the tap must make, null where no limit was chosen.", LimitsToMake, nullable=True)
    recommended = section("The tap.", RecommendedTap)
    alternatives = rows("Other taps that do, best first.", RecommendedTap)
    rejected = rows("Limits and styles that were looked at and not taken.", RejectedTapItem)


class TapReply(TapSection, Reply):
    """Reply of POST /v1/taps/recommend."""

    review = rows("What a person must decide about the tap, most important first.", DecisionItem)


class HoldItem(ReplySchema):
    """An internal class that the tap can make."""

    thread_class = Words("Class of the internal thread.", required=True, nullable=False, data_key="class")
    margin = length("The smaller of the margins to the two limits of the class")
    fit = section("The arithmetic of the margin.", FitItem)


class TapDecodeReply(Reply):
    """Reply of POST /v1/taps/decode."""

    marking = text("The marking as it was given.")
    thread = section("The thread that the tap cuts.", ThreadSection)
    style = text("Style of the tap, null where it is not marked.", nullable=True)
    substrate = text("Tool material, null where it is not marked.", nullable=True)
    ground = flag("Whether the thread of the tap is ground.")
    limit = section(
        "Pitch-diameter limit, null where none is marked. A maker's own position (6HX) has a label and no limits.",
        TapLimitItem,
        nullable=True,
    )
    hand = Choice("Hand of the thread.", ("right", "left"), required=True)
    surface = text("Surface treatment, null where it is not marked.", nullable=True)
    chamfer = section("Chamfer, null where it is not marked.", ChamferItem, nullable=True)
    holds = rows("Internal classes that the tap can make, best margin first.", HoldItem)
    unread = texts("Words of the marking that were not understood.")
