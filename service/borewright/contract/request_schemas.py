"""The request bodies and queries of API v1, field by field."""

from __future__ import annotations

from borewright.contract.fields.composites import ObjectSchema
from borewright.contract.fields.strict import Boolean, CalloutText, Choice, Number, Text, Whole

from . import request_parts as parts
from .fields import ranges


class ThreadRequest(ObjectSchema):
    """Body of POST /v1/threads/resolve."""

    thread = parts.thread()
    unit_system = parts.unit_system()
    length_of_engagement = parts.length("Length of engagement, where it is not the standard's normal one.")
    edition = parts.edition()
    explain = parts.explain()


class DrillRequestBody(ObjectSchema):
    """Body of POST /v1/drills/recommend."""

    thread = parts.thread()
    method = parts.method()
    percent_thread = parts.percent_thread()
    objective = parts.objective()
    drill_series = parts.drill_series()
    length_of_engagement = parts.length("Length of engagement, where it is not the standard's normal one.")
    material = parts.material()
    finish = parts.finish()
    stock = parts.stock()
    machine = parts.machine()
    edition = parts.edition()
    unit_system = parts.unit_system()
    explain = parts.explain()


class AllowanceRequestBody(ObjectSchema):
    """Body of POST /v1/allowances."""

    thread = parts.thread()
    finish = parts.finish(required=True)
    material = parts.material()
    tap_limits = parts.tap_limits()
    edition = parts.edition()
    unit_system = parts.unit_system()
    explain = parts.explain()


class TapRequestBody(ObjectSchema):
    """Body of POST /v1/taps/recommend."""

    thread = parts.thread()
    hole = parts.hole(required=False)
    material = parts.material()
    method = parts.method()
    finish = parts.finish()
    stock = parts.stock()
    tap_limits = parts.tap_limits()
    edition = parts.edition()
    unit_system = parts.unit_system()
    explain = parts.explain()


class TapDecodeRequest(ObjectSchema):
    """Body of POST /v1/taps/decode."""

    marking = Text(
        "What is etched on the tap's shank.", longest=200, required=True, examples=("1/2-13 NC HSS G H3", "M8 D5")
    )
    unit_system = parts.unit_system()
    explain = parts.explain()


class HoleSpecRequestBody(ObjectSchema):
    """Body of POST /v1/hole-specs."""

    id = Text("The caller's own name of the hole; it comes back unchanged.", longest=200, examples=("KRP-4105-D1",))
    thread = parts.thread()
    hole = parts.hole(required=True)
    material = parts.material()
    finish = parts.finish()
    method = parts.method()
    percent_thread = parts.percent_thread()
    objective = parts.objective()
    drill_series = parts.drill_series()
    length_of_engagement = parts.length("Length of engagement, where it is not the depth of full thread.")
    mating_screw = parts.mating_screw()
    stock = parts.stock()
    machine = parts.machine()
    safety_factor = Number(
        "How much stronger than the screw the threads must stay where `objective` is least_torque, a ratio."
        " Default: 1.",
        ranges.SAFETY_FACTOR,
    )
    strict = Boolean(
        "Refuse where data are missing (unknown material) instead of answering with a caution. Default: false."
    )
    tap_limits = parts.tap_limits()
    edition = parts.edition()
    unit_system = parts.unit_system()
    explain = parts.explain()
    detail = parts.detail()


class ExplainQuery(ObjectSchema):
    """Query of every POST."""

    needs_a_field = False

    explain = parts.explain()


class DetailQuery(ExplainQuery):
    """Query of what answers with hole specifications."""

    detail = parts.detail()


class BatchQuery(DetailQuery):
    """Query of the batches."""

    only_review = Choice(
        "`review` shows only the items that a person must look at: every other verdict than the best, and problems.",
        ("review",),
        data_key="only",
    )


class HoleSpecQuery(DetailQuery):
    """Query of POST /v1/hole-specs."""

    view = Choice("`section` answers with the section drawing, as `Accept: image/svg+xml` does.", ("section",))


class ThreadQuery(ObjectSchema):
    """Query of GET /v1/threads."""

    thread = CalloutText("Callout text as drawings print it, e.g. M8.", required=True)
    unit_system = parts.unit_system()
    length_of_engagement = parts.length("Length of engagement, where it is not the standard's normal one.")
    edition = parts.edition()
    explain = parts.explain()


class ThreadCatalogQuery(ObjectSchema):
    """Query of GET /v1/threads/catalog."""

    needs_a_field = False

    system = Text("Only sizes of this thread system.", longest=40, examples=("iso_metric",))
    series = Text("Only sizes of this series, any case.", longest=20, examples=("UNC",))
    min_diameter = parts.length("Smallest nominal diameter. Without `unit_system` each size is judged in its own unit.")
    max_diameter = parts.length("Largest nominal diameter. Without `unit_system` each size is judged in its own unit.")
    page = Whole("Page to show, a count from 1. Default: 1.", ranges.PAGE)
    page_size = Whole("Sizes a page, a count. Default: 100.", ranges.PAGE_SIZE)
    unit_system = parts.unit_system()
