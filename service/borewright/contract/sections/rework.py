"""The ways to go on with a hole that went wrong, and those that are none."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from borewright.contract import verdicts
from borewright.contract.unit_view import UnitView, view
from borewright.core.model import Unit
from borewright.core.rework.found import STAGES
from borewright.core.rework.rework_way import Rework, ReworkWay

from .note_items import CautionItem, DecisionItem, PlacedSource, SourceItem
from .operations import HeadlineSection, OperationItem
from .reply import Reply
from .reply_fields import (
    OBJECT,
    choice,
    exact,
    flag,
    length,
    limits,
    ratio,
    rows,
    section,
    text,
    word,
    words,
)
from .schema import FieldRows, NestedSection, ReplyField, SectionSchema, Show, writer

_MEMBERS = ("screw", "internal_thread", "external_thread")


def _of(name: str) -> dict[str, Any]:
    """A figure of a proof; left out where the way has none."""
    return {"source": lambda proof: proof.get(name), "present": False}


class ReworkProof(SectionSchema):
    """The figures that speak for a way; each is there where the way has it."""

    hole_diameter = length("Hole as measured", **_of("hole_diameter"))
    minor_diameter_max = length("Greatest minor diameter at this stage", **_of("minor_diameter_max"))
    minor_short_by = length("How far the hole is below its least minor diameter", **_of("minor_short_by"))
    percent_of_thread = exact(
        "Percent of thread that the hole leaves", "in percent", "percent", **_of("percent_of_thread")
    )
    percent_if_formed = exact(
        "Percent of thread that forming would make of it", "in percent", "percent", **_of("percent_if_formed")
    )
    pitch_diameter = length("Pitch diameter as measured", **_of("pitch_diameter"))
    pitch_diameter_max = length("Greatest pitch diameter at this stage", **_of("pitch_diameter_max"))
    pitch_diameter_max_looser = length("That of the looser class", **_of("pitch_diameter_max_looser"))
    over_by = length("How far the measured diameter is over its limit", **_of("over_by"))
    window = limits("Limits of the pitch diameter at this stage", **_of("window"))
    window_before_finish = limits("Those that hold before the finish", **_of("window_before_finish"))
    short_by = length("How far the pitch diameter is below its least", **_of("short_by"))
    limits_inside_window = words("Tap limits whose whole band lies inside.", **_of("limits_inside_window"))
    tap_limit = word("Tap limit that is taken.", **_of("tap_limit"))
    tap_pitch_diameter = limits("Its band", **_of("tap_pitch_diameter"))
    coat_needed = length("Coat on a surface that closes the thread to its limit", **_of("coat_needed"))
    minor_closes_by = length("How far that closes the minor diameter", **_of("minor_closes_by"))
    coat = length("Coat on a surface as measured, else the least of its class", **_of("coat"))
    cut_per_side = length("What a chasing tap cuts off each flank", **_of("cut_per_side"))
    bare_after_chase = flag("Whether it cuts through the coat.", **_of("bare_after_chase"))
    envelope = length("Largest diameter that is in the hole now", **_of("envelope"))
    new_minor_diameter = limits("Minor diameter of the new thread", **_of("new_minor_diameter"))
    cleans_up = choice(
        "Whether the new thread cuts the old one away: with any hole inside its limits, with one drilled as large as"
        " the old thread, in part, or not.",
        ("full_any_hole", "full_upper_hole", "partial", "no", "unknown"),
        **_of("cleans_up"),
    )
    radial_clean_up = length("How far the drill may run off the old axis", **_of("radial_clean_up"))
    percent_left = exact("Percent of thread that stands at least", "in percent", "percent", **_of("percent_left"))
    wall_before = length("Wall to the nearest edge as it is", **_of("wall_before"))
    wall_after = length("Wall to the nearest edge afterwards", **_of("wall_after"))
    insert_length = length("Nominal length of the insert", **_of("insert_length"))
    full_thread_depth = length("Full thread that the insert needs", **_of("full_thread_depth"))
    drill_depth_bottoming_tap = length("Drilled depth for a bottoming tap", **_of("drill_depth_bottoming_tap"))
    drill_depth_plug_tap = length("Drilled depth for a plug tap", **_of("drill_depth_plug_tap"))
    floor_left_bottoming = length("Floor below the first, negative where it breaks out", **_of("floor_left_bottoming"))
    floor_left_plug = length("Floor below the second, negative where it breaks out", **_of("floor_left_plug"))
    full_thread_depth_measured = length("Full thread as measured", **_of("full_thread_depth_measured"))
    full_thread_depth_wanted = length("Full thread of the drawing", **_of("full_thread_depth_wanted"))
    full_thread_depth_sound = length("Sound thread that is left", **_of("full_thread_depth_sound"))
    threads_sound = ratio("Pitches of sound thread", **_of("threads_sound"))
    missing = length("Full thread that is missing", **_of("missing"))
    drill_depth = length("Drilled depth that there is", **_of("drill_depth"))
    tap_chamfer = exact("Chamfer of the tap", "a count of threads", "count", **_of("tap_chamfer_threads"))
    deepest_full_thread = length("Deepest full thread that it can cut there", **_of("deepest_full_thread"))
    drill_depth_needed = length("Drilled depth that the planned tap needs", **_of("drill_depth_needed"))
    extra_drill_depth = length("How much deeper that is", **_of("extra_drill_depth"))
    floor_left = length("Wall under the drill's tip", **_of("floor_left"))
    tap_diameter = length("Diameter of the broken tap", **_of("tap_diameter"))
    external_shear_area_ratio = ratio(
        "Shear area of the screw's thread over that as drawn", **_of("external_shear_area_ratio")
    )
    internal_shear_area_ratio = ratio(
        "Shear area of the part's thread over that as drawn", **_of("internal_shear_area_ratio")
    )
    length_of_engagement = length("Length of engagement that is counted on", **_of("length_of_engagement"))
    required_length = length("Engagement at which the screw breaks first", **_of("required_length"))
    safety_factor = ratio("Smaller strip force over what breaks the screw", **_of("safety_factor"))
    safety_factor_as_drawn = ratio("The same of the joint as drawn", **_of("safety_factor_as_drawn"))
    fails_first = choice("What fails first.", _MEMBERS, **_of("fails_first"))


class WayShown(NamedTuple):
    """A way with what the edge adds: the unit of its own hole, its request, and that answered."""

    way: ReworkWay
    unit: Unit
    request: Mapping[str, object] | None
    specification: Mapping[str, object] | None
    place: int


class _Operations(FieldRows):
    """The operations of a way, whose lengths are in the unit of its own thread."""

    def shown(self, figures: UnitView) -> Show | None:
        """Every line in the units of the reply."""

        def show(one: WayShown) -> list[dict[str, object]]:
            write: Callable[[Any], dict[str, object]] = writer(OperationItem, view(one.unit, figures.asked))
            return [write(operation) for operation in one.way.operations]

        return show


class _Specified(NestedSection):
    """What the specification of a way says first: it is answered already, in the units of the reply."""

    def shown(self, figures: UnitView) -> Show | None:
        """As it was answered."""
        return None


class WaySpecification(SectionSchema):
    """What POST /v1/hole-specs answers to the `request` of a way; with `detail` it has further fields."""

    spec_id = word("Name of the specification.")
    verdict = choice("As of any hole.", verdicts.HOLE)
    review = rows("What a person must decide.", DecisionItem)
    headline = section("The hole on a card at the machine.", HeadlineSection)


class ReworkWayItem(SectionSchema):
    """One way to go on."""

    way = word("Stable name of the way.", source="way.name")
    disposition = choice(
        "What is proposed, never more: use_as_is (as it is, off the drawing), rework (back to the drawing in full),"
        " repair (fit for use, off the drawing), scrap.",
        ("use_as_is", "rework", "repair", "scrap"),
        source="way.disposition",
    )
    regrade = flag("Whether it is accepted to other requirements than the first ones.", source="way.regrade")
    conforms = flag("Whether the hole meets the drawing afterwards.", source="way.conforms")
    needs_authority = flag("Whether somebody must decide before the work starts.", source="way.needs_authority")
    authority = word("Who decides.", source="way.authority")
    text = text("The way in words.", source="way.text")
    thread = word("Designation of the thread, where it is not that of the drawing.", source="way.thread", present=False)
    proof = section("The figures that speak for it.", ReworkProof, source="way.proof")
    request = ReplyField(
        "The hole of this way as POST /v1/hole-specs takes it (published schema: hole-spec-request): for its full"
        " specification, its gauges and its drawing. Only where the hole becomes another one.",
        OBJECT,
        present=False,
    )
    specification = _Specified(
        "What that answers: in short, or in the `detail` asked for; only where there is a `request`.",
        WaySpecification,
        present=False,
    )
    operations = _Operations(
        "What is done, in shop order.", NestedSection("One of them.", OperationItem), source=lambda one: one
    )
    cautions = rows("What to look out for.", CautionItem, source="way.cautions")
    sources = rows(
        "Where its figures come from; names are those of the way.",
        SourceItem,
        source=lambda one: [PlacedSource("", each) for each in one.way.notes.sources],
    )


class RuledOutItem(SectionSchema):
    """A way that is none here."""

    way = word("Stable name of the way.", source="name")
    why = text("Why not.")


class ReworkShown(NamedTuple):
    """The answer, with its ways as the edge shows them."""

    rework: Rework
    ways: list[WayShown]


class ReworkReply(Reply):
    """Reply of POST /v1/rework."""

    id = word("The caller's own name of the hole.", source="rework.request.hole.id", nullable=True)
    thread = word("Thread of the drawing.", source="rework.thread.designation")
    condition = word("What is wrong, as stated.", source="rework.request.found.condition")
    stage = choice("When it was found: it decides which limits judge.", STAGES, source="rework.stage")
    ways = rows("Every way to go on, best first. Nothing is accepted here.", ReworkWayItem)
    ruled_out = rows("Ways that are none here, and why.", RuledOutItem, source="rework.ruled_out")
