"""The reply of the fit of a shop's measurements."""

from __future__ import annotations

from typing import Any

from borewright.core.shop_figures.fitted import NEXT_HOLES

from .reply import Reply
from .reply_fields import NUMBER, chance, choice, flag, length, rows, section, text, word
from .reply_fields import count as whole_count
from .schema import FieldRows, ReplyField, SectionSchema


def _figure(description: str, **given: Any) -> ReplyField:
    return ReplyField(
        f"{description}, a ratio or a length: in the unit of the figure.", NUMBER, dimension="ratio", **given
    )


class KeptGrouped(SectionSchema):
    """What every figure says of itself."""

    count = whole_count("Pieces that it comes of")
    weight = ReplyField(
        "Weight of the data against the published figure, from 0 to 1.", NUMBER, dimension="chance", present=False
    )
    date = word("When it was measured.", present=False)
    material_group = word("ISO 513 letter of the parts that it holds for.", present=False)
    machine = word("Machine that it holds for.", present=False)


class KeptSpreading(KeptGrouped):
    """A figure with the spread of the next piece."""

    standard_deviation = _figure("Standard deviation of the pieces")
    spread = _figure("Spread of the next piece: pieces and uncertainty of the mean")
    scale_factors = FieldRows(
        "What the spread is multiplied by, a ratio for each of equal shares of the pieces.",
        ReplyField("One of them, a ratio.", NUMBER, dimension="ratio"),
    )


class KeptOversize(KeptSpreading):
    """How much larger than its drill a hole is."""

    drill_diameter = length("Drill that it was measured on, or the middle of several", source="drill_diameter.value")
    mean = length("Mean oversize on diameter", source="mean.value")
    drill_style = word("Kind of drill.", present=False)


class KeptCut(KeptSpreading):
    """How much larger than its tap a thread is."""

    mean = _figure("Mean oversize on pitch diameter, a share of the tolerance of class 2B or 6H")
    method = choice("Cut or formed.", ("cut", "form"))
    tapping = word("How the tap was driven.", present=False)
    tap_style = word("Kind of tap.", present=False)
    taps_measured = flag("Whether the taps themselves were measured.")


class KeptCoat(KeptSpreading):
    """Thickness of a coat on one surface."""

    specification = word("Specification of the finish.", source="finish.specification", present=False)
    finish_class = word("Class within it.", source="finish.finish_class", data_key="class", present=False)
    mean = length("Mean thickness on a surface", source="mean.value")
    plater = word("Who put it on.", present=False)


class KeptTorque(KeptGrouped):
    """What the tapping torque of the model is multiplied by."""

    median = _figure("Middle")
    low = _figure("Lower end for the next hole")
    high = _figure("Upper end for the next hole")
    fluid = word("Cutting fluid.", present=False)
    tap_style = word("Kind of tap.", present=False)


class KeptTapLife(KeptGrouped):
    """Taps that broke."""

    rate = _figure("Taps that break a hole")
    rate_high = _figure("Upper end of the rate")
    broken = whole_count("Taps that broke")
    size_from = word("Smallest thread of the band of sizes.", source=lambda one: _inches(one.size_from))
    size_to = word("Largest thread of the band of sizes.", source=lambda one: _inches(one.size_to))


def _inches(given: Any) -> str:
    return f"{given.value:f} in"


class KeptFigures(SectionSchema):
    """The figures to keep, and to send with every request as `shop_figures`."""

    id = word("Name of these figures: the same figures have the same name.")
    unit_system = choice("Unit of their lengths, whatever that of a request.", ("inch", "metric"))
    drill_oversize = rows("Oversize of drilled holes.", KeptOversize)
    tap_oversize = rows("Oversize of tapped threads.", KeptCut)
    coat = rows("Thickness of coats.", KeptCoat)
    tapping_torque = rows("Tapping torque.", KeptTorque)
    tap_life = rows("Taps that broke.", KeptTapLife)


class IntervalItem(SectionSchema):
    """Two ends."""

    low = _figure("Lower end")
    high = _figure("Upper end")


class PriorItem(SectionSchema):
    """The published figure."""

    mean = _figure("Mean")
    standard_deviation = _figure("Standard deviation")


class DataItem(SectionSchema):
    """What was measured."""

    count = whole_count("Pieces")
    effective = ReplyField(
        "Independent pieces that they stand for, a count: parts of a batch are alike.", NUMBER, dimension="count"
    )
    mean = _figure("Mean")
    min = _figure("Least")
    max = _figure("Greatest")


class PosteriorItem(SectionSchema):
    """What is believed after the data."""

    mean = _figure("Mean")
    standard_deviation = _figure("Standard deviation of the pieces, without the gauge")
    weight = chance("Weight of the data in the mean")
    far_from_published = flag("Whether the data lie far from the published figure.")


class IntervalsItem(SectionSchema):
    """Where the figures lie, with the confidence asked for."""

    mean = section("The mean.", IntervalItem)
    standard_deviation = section("The standard deviation.", IntervalItem)
    next = section("The next piece.", IntervalItem)


class OutlierItem(SectionSchema):
    """A value that lies outside of what the others tell; it is kept unless the request says otherwise."""

    measurement = ReplyField("Place in `measurements`, a count from 0.", {"type": "integer"}, dimension="number")
    value = _figure("The value")


class CountedItem(SectionSchema):
    """A figure that is a count."""

    checked = whole_count("Pieces, or holes")
    bad = whole_count("Pieces refused, or taps broken")
    share = chance("Counted share, or rate a hole")
    interval = section("Where the share of bad ones, or the rate, lies.", IntervalItem)
    exact_upper = chance("Exact upper end of it")
    inside = section("Share inside the gauges, with the published spread.", IntervalItem, nullable=True)
    chance_of_a_break = chance(f"Chance that a tap breaks in the next {NEXT_HOLES} holes", nullable=True)


class RemarkItem(SectionSchema):
    """Something that must be known of a figure."""

    code = word("Stable code.")
    text = text("In plain words.")


class FittedItem(SectionSchema):
    """One figure: the published one, the data, and what comes of both."""

    figure = choice(
        "What was fitted.",
        ("drill_oversize", "tap_oversize", "coat", "tapping_torque", "tap_life", "go_no_go"),
    )
    group = word("What it holds for.")
    unit = word("Unit of its figures: in, mm, `share` of the tolerance, `times` the model's torque, or `rate`.")
    prior = section("The published figure; null for counts.", PriorItem, nullable=True)
    data = section("What was measured; null for counts.", DataItem, nullable=True)
    values = FieldRows(
        "The values as they are fitted.",
        ReplyField("One, a ratio or a length in the unit of the figure.", NUMBER, dimension="ratio"),
    )
    posterior = section("What is believed now; null for counts.", PosteriorItem, nullable=True)
    interval = section("Where it lies; null for counts.", IntervalsItem, nullable=True)
    counted = section("Where the figure is a count.", CountedItem, nullable=True)
    count = whole_count("Pieces")
    outliers = rows("Values that lie outside.", OutlierItem)
    without_outliers = section(
        "What is believed without them; null where none lies outside.", PosteriorItem, nullable=True
    )
    is_kept = flag("Whether it stands in `shop_figures`.", data_key="kept")
    next = whole_count("How many more pieces halve the interval of the mean; null where no number does", nullable=True)
    next_text = text("The same in words.")
    remarks = rows("What must be known of it.", RemarkItem)


class ChangedItem(SectionSchema):
    """A typical decision that would now differ."""

    hole = word("The hole.")
    what = word("What differs: drill, tap limit, verdict or chance of acceptance.")
    before = word("With the tables.")
    after = word("With the shop's figures.")


class ShopFiguresReply(Reply):
    """Reply of POST /v1/shop-figures/fit."""

    shop_figures = section("The figures to keep: the service keeps nothing.", KeptFigures)
    fit = rows("One row a figure.", FittedItem)
    changes = rows("Of twenty typical decisions those that would now differ.", ChangedItem)
    compared = whole_count("Typical decisions that were compared")
    confidence = chance("Chance that each interval holds")
