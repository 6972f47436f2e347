"""Replies of the service, a TypedDict a schema. Generated: what is changed here is lost.

`python -m borewright.contract.documents.publish` writes it.
"""

from __future__ import annotations

from typing import Any, Literal, NotRequired, TypedDict


class AcceptanceSection(TypedDict):
    """Chance that the sizes end inside their limits, from 0 to 1; null where a distribution is not known."""

    minor_diameter: float | None
    pitch_diameter: float | None
    both: float | None
    model: str


class AcceptanceSectionInFigures(TypedDict):
    """Chance that the sizes end inside their limits, from 0 to 1; null where a distribution is not known."""

    minor_diameter: NotRequired[float]
    pitch_diameter: NotRequired[float]
    both: NotRequired[float]


class AllowanceReply(TypedDict):
    """Reply of POST /v1/allowances."""

    units: Units
    notice: str
    assumptions: list[str]
    cautions: list[CautionItem]
    sources: list[SourceItem]
    tables_version: str
    rules_version: str
    derivation: NotRequired[list[StepItem]]
    thread: str
    finish: FinishItem
    reading: str
    change: DiameterLimits
    finished: DiameterLimits
    before_finish: DiameterLimits
    feasible: bool
    remedies: list[str]
    dimensions_apply: NotRequired[Literal["before_finish"]]
    remaining_tolerance: RemainingTolerance
    overtap: OvertapItem | None
    axial_movement: Limits | None
    tap: FittedLimit | None


class AsWrittenSection(TypedDict):
    """What the note says of the hole."""

    thread: str | None
    drill: float | None
    drill_label: str | None
    drill_depth: float | None
    full_thread_depth: float | None
    countersink: WrittenCountersink | None
    counterbore: WrittenCounterbore | None
    sides: Literal["one", "both"]
    thickness: float | None
    words: list[WordsItem]


class AuditBatchReply(TypedDict):
    """Reply of POST /v1/hole-specs/audit/batch."""

    summary: AuditBatchSummary
    results: list[AuditResult]


class AuditBatchSummary(TypedDict):
    """How a batch of audits went."""

    items: int
    ok: int
    failed: int
    verdicts: AuditVerdictCounts


class AuditReply(TypedDict):
    """Reply of POST /v1/hole-specs/audit."""

    units: Units
    notice: str
    assumptions: list[str]
    cautions: list[CautionItem]
    sources: list[SourceItem]
    tables_version: str
    rules_version: str
    derivation: NotRequired[list[StepItem]]
    id: str | None
    verdict: Literal["accept", "review", "reject"]
    findings: list[FindingItem]
    spec: HoleSpecReply | HoleSpecFigures | HoleSpecRouting


class AuditResult(TypedDict):
    """What one item of a batch got: `audit`, or `problem`."""

    index: int
    id: str | None
    status: ItemStatus
    audit: NotRequired[AuditReply]
    problem: NotRequired[Problem]


class AuditVerdictCounts(TypedDict):
    """Plans by verdict."""

    accept: int
    review: int
    reject: int


Availability = Literal["standard", "special"]


class AwayItem(TypedDict):
    """What is done away from the spindle."""

    after_stage: int
    operation: str
    text: str
    holes: list[str]


class BasicDiameters(TypedDict):
    """Basic diameters."""

    major_diameter: float
    pitch_diameter: float
    minor_diameter: float


class BatchReply(TypedDict):
    """Reply of POST /v1/hole-specs/batch."""

    summary: BatchSummary
    columns: NotRequired[list[HeadingRead]]
    results: list[BatchResult]


class BatchResult(TypedDict):
    """The answer to one item."""

    index: int
    row: NotRequired[int]
    same_id_as_row: NotRequired[int]
    id: str | None
    status: ItemStatus
    spec: NotRequired[HoleSpecReply | HoleSpecFigures | HoleSpecRouting]
    problem: NotRequired[ItemProblem]


class BatchSummary(TypedDict):
    """How a batch went."""

    items: int
    ok: int
    failed: int
    verdicts: VerdictCounts


class CatalogItem(TypedDict):
    """One standard size."""

    designation: str
    system: str
    series: str | None
    size: str
    unit: str
    nominal_diameter: float
    pitch: float
    threads_per_inch: float | None
    classes: list[str]


class CatalogueReply(TypedDict):
    """Reply of GET /v1/catalog/<name>. The unit of a figure is in its name."""

    items: list[dict[str, Any]]
    page: NotRequired[int]
    page_size: NotRequired[int]
    pages: NotRequired[int]
    total: NotRequired[int]
    tables_version: str


Cause = Literal["request", "table", "rule"]


class CauseItem(TypedDict):
    """A possible cause of what differs."""

    cause: Cause
    certain: bool
    text: str


class CautionCode(TypedDict):
    """Something that can cost money or hurt people."""

    code: str


class CautionItem(TypedDict):
    """Something that can cost money or hurt people."""

    code: str
    text: str


class CellFault(TypedDict):
    """One refused field, and the cell of a sheet in which it stands."""

    pointer: str
    code: str
    detail: str
    allowed: NotRequired[list[str]]
    did_you_mean: NotRequired[list[str]]
    column: NotRequired[str]
    cell: NotRequired[str]


class ChamferItem(TypedDict):
    """Chamfer of a tap."""

    name: str
    threads: Span


class ChamferItemInFigures(TypedDict):
    """Chamfer of a tap."""

    name: str
    threads: SpanInFigures


ChangeItem = TypedDict(
    "ChangeItem",
    {
        "hole": "str",
        "from": "list[str]",
        "to": "list[str]",
        "why": "str",
        "cost": "CostSection",
    },
)
"""A hole that is made with other tools than by itself."""


class ChangedItem(TypedDict):
    """A typical decision that would now differ."""

    hole: str
    what: str
    before: str
    after: str


class CompareBatchReply(TypedDict):
    """Reply of POST /v1/hole-specs/compare/batch."""

    summary: CompareBatchSummary
    results: list[CompareResult]


class CompareBatchSummary(TypedDict):
    """How a batch of comparisons went."""

    items: int
    ok: int
    failed: int
    verdicts: CompareVerdictCounts


class CompareReply(TypedDict):
    """Reply of POST /v1/hole-specs/compare."""

    units: Units
    notice: str
    assumptions: list[str]
    cautions: list[CautionItem]
    sources: list[SourceItem]
    tables_version: str
    rules_version: str
    derivation: NotRequired[list[StepItem]]
    id: str | None
    verdict: Literal["keep", "update", "review"]
    before: ComparedSection
    after: ComparedSection
    detail: Detail
    same_request: bool | None
    why: list[CauseItem]
    changes: list[DifferenceItem]
    further_changes: int
    not_compared: list[NotComparedItem]


class CompareResult(TypedDict):
    """What one item of a batch got: `comparison`, or `problem`."""

    index: int
    id: str | None
    status: ItemStatus
    comparison: NotRequired[CompareReply]
    problem: NotRequired[Problem]


class CompareVerdictCounts(TypedDict):
    """Comparisons by verdict."""

    keep: int
    update: int
    review: int


class ComparedSection(TypedDict):
    """What names a specification and what answered it; null where it was not kept."""

    spec_id: str | None
    verdict: str | None
    tables_version: str | None
    rules_version: str | None


class ComparisonSection(TypedDict):
    """The chart's drill against the least-torque drill."""

    chart: DrillOption
    least_torque: DrillOption
    torque_ratio: float
    strength_ratio: float | None
    margin_gained: float
    reasons: list[str]


class ComparisonSectionInFigures(TypedDict):
    """The chart's drill against the least-torque drill."""

    chart: DrillOptionInFigures
    least_torque: DrillOptionInFigures
    torque_ratio: float
    strength_ratio: NotRequired[float]
    margin_gained: float


class CostSection(TypedDict):
    """What a change costs its hole: the plan less the hole by itself; null where one of the two is not known."""

    percent_thread: float | None
    acceptance: float | None
    torque: float | None


class CountedItem(TypedDict):
    """A figure that is a count."""

    checked: int
    bad: int
    share: float
    interval: IntervalItem
    exact_upper: float
    inside: IntervalItem | None
    chance_of_a_break: float | None


class CuttingDataSection(TypedDict):
    """Cutting data of drill and tap."""

    drill: DrillCutItem | None
    tap: TapCutItem | None
    fluid: FluidItem | None


class CuttingDataSectionInFigures(TypedDict):
    """Cutting data of drill and tap."""

    drill: NotRequired[DrillCutItemInFigures]
    tap: NotRequired[TapCutItemInFigures]
    fluid: NotRequired[FluidItem]


class DataItem(TypedDict):
    """What was measured."""

    count: int
    effective: float
    mean: float
    min: float
    max: float


class DecisionItem(TypedDict):
    """What a person must decide before the hole goes to the shop."""

    code: str
    text: str
    pointer: str


class DepthsSection(TypedDict):
    """Depths from the entry face."""

    drill_depth: float
    drill_tip_depth: float
    full_thread_depth: float
    tap_travel: float
    chamfer_length: float
    countersink_diameter: float
    countersink_angle: float
    counterbore_diameter: NotRequired[float]
    counterbore_depth: NotRequired[float]
    breakthrough: float | None
    wall_left: float | None


class DepthsSectionInFigures(TypedDict):
    """Depths from the entry face."""

    drill_depth: float
    drill_tip_depth: float
    full_thread_depth: float
    tap_travel: float
    chamfer_length: float
    countersink_diameter: float
    countersink_angle: float
    counterbore_diameter: NotRequired[float]
    counterbore_depth: NotRequired[float]
    breakthrough: NotRequired[float]
    wall_left: NotRequired[float]


Detail = Literal["full", "figures", "routing"]


class DiameterLimits(TypedDict):
    """Limits of the three diameters of a thread."""

    major_diameter: Limits
    pitch_diameter: Limits
    minor_diameter: Limits


class DifferenceItem(TypedDict):
    """A field that differs."""

    pointer: str
    how: Literal["changed", "added", "removed"]
    subject: Literal["tool", "depth", "limit", "gauge", "operation", "decision", "caution", "figure", "words", "source", "version"]
    matters: bool
    why: list[Cause]
    before: Any
    after: Any


DimensionsApply = Literal["before_finish", "after_finish"]


class DispositionCounts(TypedDict):
    """Holes by what is proposed first."""

    use_as_is: int
    rework: int
    repair: int
    scrap: int


class DrillChanceItem(TypedDict):
    """A drill and how often its holes are accepted."""

    label: str
    acceptance: float | None


class DrillChanceItemInFigures(TypedDict):
    """A drill and how often its holes are accepted."""

    label: str
    acceptance: NotRequired[float]


class DrillCutItem(TypedDict):
    """Cutting data of the drill; forces are null where no constant is held."""

    cutting_speed: float
    cutting_speed_range: SpeedRange
    spindle_speed: int
    feed: float
    torque: float | None
    power: float | None
    thrust: float | None
    time: float
    peck: PeckItem


class DrillCutItemInFigures(TypedDict):
    """Cutting data of the drill; forces are null where no constant is held."""

    cutting_speed: float
    cutting_speed_range: SpeedRange
    spindle_speed: int
    feed: float
    torque: NotRequired[float]
    power: NotRequired[float]
    thrust: NotRequired[float]
    time: float
    peck: PeckItemInFigures


class DrillItem(TypedDict):
    """A drill weighed against the limits of the hole."""

    label: str
    series: str
    diameter: float
    percent_thread: float
    expected_hole_diameter: float | None
    expected_percent_thread: float | None
    within_minor_diameter_limits: bool | None
    margin: Margin
    acceptance: float | None
    operation: DrillOperation
    in_stock: bool | None
    special: bool
    order_text: str | None
    reasons: list[str]


class DrillItemInFigures(TypedDict):
    """A drill weighed against the limits of the hole."""

    label: str
    series: str
    diameter: float
    percent_thread: float
    expected_hole_diameter: NotRequired[float]
    expected_percent_thread: NotRequired[float]
    within_minor_diameter_limits: NotRequired[bool]
    margin: MarginInFigures
    acceptance: NotRequired[float]
    operation: DrillOperation
    in_stock: NotRequired[bool]
    special: bool
    order_text: NotRequired[str]


DrillOperation = Literal["drill", "drill_and_ream"]


class DrillOption(TypedDict):
    """One of two drills with what it leads to."""

    label: str
    diameter: float
    hole_diameter: float
    expected_percent_thread: float
    torque: TorqueBand | None
    break_margin: RatioBand | None
    safety_factor: float | None
    fails_first: str | None
    acceptance: float | None


class DrillOptionInFigures(TypedDict):
    """One of two drills with what it leads to."""

    label: str
    diameter: float
    hole_diameter: float
    expected_percent_thread: float
    torque: NotRequired[TorqueBand]
    break_margin: NotRequired[RatioBand]
    safety_factor: NotRequired[float]
    fails_first: NotRequired[str]
    acceptance: NotRequired[float]


class DrillReply(TypedDict):
    """Reply of POST /v1/drills/recommend."""

    units: Units
    notice: str
    assumptions: list[str]
    cautions: list[CautionItem]
    sources: list[SourceItem]
    tables_version: str
    rules_version: str
    derivation: NotRequired[list[StepItem]]
    thread: str
    method: Method
    objective: str
    rule: str
    percent_basis: str
    target: DrillTarget
    minor_diameter_limits: Limits
    hole_limits: Limits | None
    recommended: DrillItem
    ream_diameter: float | None
    chart_drill: DrillChanceItem | None
    most_accepted: DrillChanceItem | None
    alternatives: list[DrillItem]
    rejected: list[RejectedDrillItem]
    review: list[DecisionItem]


class DrillSection(TypedDict):
    """The choice of a drill."""

    thread: str
    method: Method
    objective: str
    rule: str
    percent_basis: str
    target: DrillTarget
    minor_diameter_limits: Limits
    hole_limits: Limits | None
    recommended: DrillItem
    ream_diameter: float | None
    chart_drill: DrillChanceItem | None
    most_accepted: DrillChanceItem | None
    alternatives: list[DrillItem]
    rejected: list[RejectedDrillItem]


class DrillSectionInFigures(TypedDict):
    """The choice of a drill."""

    method: Method
    objective: str
    percent_basis: str
    target: DrillTargetInFigures
    hole_limits: NotRequired[Limits]
    recommended: DrillItemInFigures
    ream_diameter: NotRequired[float]
    chart_drill: NotRequired[DrillChanceItemInFigures]
    most_accepted: NotRequired[DrillChanceItemInFigures]


class DrillTarget(TypedDict):
    """What was aimed at."""

    percent_thread: float | None
    hole_diameter: float


class DrillTargetInFigures(TypedDict):
    """What was aimed at."""

    percent_thread: NotRequired[float]
    hole_diameter: float


FailsFirst = Literal["screw", "internal_thread", "external_thread"]


class FindingItem(TypedDict):
    """One remark on a plan. Lengths in its texts are in the units of the reply."""

    code: str
    severity: Literal["error", "warning", "info"]
    field: str
    text: str
    planned: str
    expected: str


FinishItem = TypedDict(
    "FinishItem",
    {
        "specification": "str | None",
        "class": "str | None",
        "process": "str | None",
        "thickness": "Limits",
        "growth_fraction": "float | Span",
        "build_up": "Limits",
        "applied": "str",
    },
)
"""A finish as read."""


FinishItemInFigures = TypedDict(
    "FinishItemInFigures",
    {
        "specification": "NotRequired[str]",
        "class": "NotRequired[str]",
        "process": "NotRequired[str]",
        "thickness": "Limits",
        "growth_fraction": "float | Span",
        "build_up": "Limits",
        "applied": "str",
    },
)
"""A finish as read."""


class FinishSection(TypedDict):
    """What a finish does to the limits of an internal thread."""

    thread: str
    finish: FinishItem
    reading: str
    change: DiameterLimits
    finished: DiameterLimits
    before_finish: DiameterLimits
    feasible: bool
    remedies: list[str]
    dimensions_apply: NotRequired[Literal["before_finish"]]
    remaining_tolerance: RemainingTolerance
    overtap: OvertapItem | None
    axial_movement: Limits | None


class FinishSectionInFigures(TypedDict):
    """What a finish does to the limits of an internal thread."""

    finish: FinishItemInFigures
    reading: str
    change: DiameterLimits
    feasible: bool
    dimensions_apply: NotRequired[Literal["before_finish"]]
    remaining_tolerance: RemainingToleranceInFigures
    overtap: NotRequired[OvertapItem]
    axial_movement: NotRequired[Limits]


class FitItem(TypedDict):
    """The arithmetic that chose a limit: the tap's band and the cut's oversize inside the limits to be made."""

    limits: Limits
    cut_oversize: float
    largest_cut: float
    margin_above_min: float
    margin_below_max: float


class FitItemInFigures(TypedDict):
    """The arithmetic that chose a limit: the tap's band and the cut's oversize inside the limits to be made."""

    cut_oversize: float
    largest_cut: float
    margin_above_min: float
    margin_below_max: float


class FittedItem(TypedDict):
    """One figure: the published one, the data, and what comes of both."""

    figure: Literal["drill_oversize", "tap_oversize", "coat", "tapping_torque", "tap_life", "go_no_go"]
    group: str
    unit: str
    prior: PriorItem | None
    data: DataItem | None
    values: list[float]
    posterior: PosteriorItem | None
    interval: IntervalsItem | None
    counted: CountedItem | None
    count: int
    outliers: list[OutlierItem]
    without_outliers: PosteriorItem | None
    kept: bool
    next: int | None
    next_text: str
    remarks: list[RemarkItem]


class FittedLimit(TypedDict):
    """A tap limit with its fit."""

    label: str
    pitch_diameter: Limits
    status: SourceStatus
    fit: FitItem | None
    availability: Availability
    order_text: str | None
    equivalents: list[TapLimitItem]


class FluidItem(TypedDict):
    """Cutting fluid."""

    drilling: str
    tapping: str


class GaugeSetItem(TypedDict):
    """Gauges for one state of the part."""

    thread_plug: ThreadPlugItem | None
    plain_plug: PlainPlugItem | None


class GaugeSetItemInFigures(TypedDict):
    """Gauges for one state of the part."""

    thread_plug: NotRequired[ThreadPlugItemInFigures]
    plain_plug: NotRequired[PlainPlugItemInFigures]


class GaugingSection(TypedDict):
    """Gauges of the finished thread."""

    thread_plug: ThreadPlugItem | None
    plain_plug: PlainPlugItem | None
    before_finish: GaugeSetItem | None
    acceptance: list[str]


class GaugingSectionInFigures(TypedDict):
    """Gauges of the finished thread."""

    thread_plug: NotRequired[ThreadPlugItemInFigures]
    plain_plug: NotRequired[PlainPlugItemInFigures]
    before_finish: NotRequired[GaugeSetItemInFigures]


class GeneralNoteItem(TypedDict):
    """A general note, of the request or of a line of the note."""

    text: str
    changes: list[str]
    unread: list[str]


Hand = Literal["right", "left"]


class HardnessItem(TypedDict):
    """Hardness on two scales."""

    hb: float | None
    hrc: float | None


class HardnessItemInFigures(TypedDict):
    """Hardness on two scales."""

    hb: NotRequired[float]
    hrc: NotRequired[float]


class HeadingRead(TypedDict):
    """A heading of a sheet, and what it was read as."""

    heading: str
    read_as: str | None
    unit: NotRequired[str]


class HeadlineSection(TypedDict):
    """The hole on a card at the machine: five short texts in the units of the reply."""

    drill: str
    tap: str
    depth: str
    speed: str
    gauge: str


class HealthReply(TypedDict):
    """Reply of the health addresses."""

    status: str


HoldItem = TypedDict(
    "HoldItem",
    {
        "class": "str",
        "margin": "float",
        "fit": "FitItem",
    },
)
"""An internal class that the tap can make."""


class HoleSpecFigures(TypedDict):
    """Reply of POST /v1/hole-specs with `detail` figures: the fields of the full reply that hold figures. A field inside a section that has no value is left out."""

    units: Units
    cautions: list[CautionCode]
    tables_version: str
    rules_version: str
    derivation: NotRequired[list[StepItem]]
    id: str | None
    spec_id: str
    verdict: Verdict
    review: list[DecisionItem]
    headline: HeadlineSection
    limits: PurposeLimitsSection
    thread: ThreadSectionInFigures
    finish: FinishSectionInFigures | None
    material: MaterialSectionInFigures | None
    drill: DrillSectionInFigures | None
    tap: TapSectionInFigures | None
    depths: DepthsSectionInFigures
    reach: ReachSectionInFigures | None
    cutting_data: CuttingDataSectionInFigures | None
    strength: StrengthSection | None
    gauging: GaugingSectionInFigures
    acceptance: AcceptanceSectionInFigures
    comparison: ComparisonSectionInFigures | None
    operations: list[OperationInFigures]


class HoleSpecReply(TypedDict):
    """Reply of POST /v1/hole-specs."""

    units: Units
    notice: str
    assumptions: list[str]
    cautions: list[CautionItem]
    sources: list[SourceItem]
    tables_version: str
    rules_version: str
    derivation: NotRequired[list[StepItem]]
    id: str | None
    spec_id: str
    verdict: Verdict
    review: list[DecisionItem]
    headline: HeadlineSection
    limits: PurposeLimitsSection
    thread: ThreadSection
    finish: FinishSection | None
    material: MaterialSection | None
    drill: DrillSection | None
    tap: TapSection | None
    depths: DepthsSection
    reach: ReachSection | None
    cutting_data: CuttingDataSection | None
    strength: StrengthSection | None
    gauging: GaugingSection
    acceptance: AcceptanceSection
    comparison: ComparisonSection | None
    operations: list[OperationItem]


class HoleSpecRouting(TypedDict):
    """Reply of POST /v1/hole-specs with `detail` routing: what a routing and a card at the machine need."""

    cautions: list[CautionItem]
    tables_version: str
    rules_version: str
    id: str | None
    spec_id: str
    verdict: Verdict
    review: list[DecisionItem]
    headline: HeadlineSection
    operations: list[OperationInShort]


class IntervalItem(TypedDict):
    """Two ends."""

    low: float
    high: float


class IntervalsItem(TypedDict):
    """Where the figures lie, with the confidence asked for."""

    mean: IntervalItem
    standard_deviation: IntervalItem
    next: IntervalItem


class ItemProblem(TypedDict):
    """The problem of an item."""

    type: str
    title: str
    status: int
    detail: str
    remedy: NotRequired[str]
    instance: str
    code: str
    request_id: str
    errors: list[CellFault]


ItemStatus = Literal["ok", "error"]


KeptCoat = TypedDict(
    "KeptCoat",
    {
        "count": "int",
        "weight": "NotRequired[float]",
        "date": "NotRequired[str]",
        "material_group": "NotRequired[str]",
        "machine": "NotRequired[str]",
        "standard_deviation": "float",
        "spread": "float",
        "scale_factors": "list[float]",
        "specification": "NotRequired[str]",
        "class": "NotRequired[str]",
        "mean": "float",
        "plater": "NotRequired[str]",
    },
)
"""Thickness of a coat on one surface."""


class KeptCut(TypedDict):
    """How much larger than its tap a thread is."""

    count: int
    weight: NotRequired[float]
    date: NotRequired[str]
    material_group: NotRequired[str]
    machine: NotRequired[str]
    standard_deviation: float
    spread: float
    scale_factors: list[float]
    mean: float
    method: Method
    tapping: NotRequired[str]
    tap_style: NotRequired[str]
    taps_measured: bool


class KeptFigures(TypedDict):
    """The figures to keep, and to send with every request as `shop_figures`."""

    id: str
    unit_system: UnitSystem
    drill_oversize: list[KeptOversize]
    tap_oversize: list[KeptCut]
    coat: list[KeptCoat]
    tapping_torque: list[KeptTorque]
    tap_life: list[KeptTapLife]


class KeptOversize(TypedDict):
    """How much larger than its drill a hole is."""

    count: int
    weight: NotRequired[float]
    date: NotRequired[str]
    material_group: NotRequired[str]
    machine: NotRequired[str]
    standard_deviation: float
    spread: float
    scale_factors: list[float]
    drill_diameter: float
    mean: float
    drill_style: NotRequired[str]


class KeptTapLife(TypedDict):
    """Taps that broke."""

    count: int
    weight: NotRequired[float]
    date: NotRequired[str]
    material_group: NotRequired[str]
    machine: NotRequired[str]
    rate: float
    rate_high: float
    broken: int
    size_from: str
    size_to: str


class KeptTorque(TypedDict):
    """What the tapping torque of the model is multiplied by."""

    count: int
    weight: NotRequired[float]
    date: NotRequired[str]
    material_group: NotRequired[str]
    machine: NotRequired[str]
    median: float
    low: float
    high: float
    fluid: NotRequired[str]
    tap_style: NotRequired[str]


class KitSection(TypedDict):
    """What is laid out beside the cutting tools."""

    tools: list[str]
    gauges: list[str]
    fluids: list[str]
    other: list[str]


class Limits(TypedDict):
    """Two limits of a length."""

    min: float | None
    max: float | None


class LimitsToMake(TypedDict):
    """What the tap must make."""

    pitch_diameter: Limits


class LoadingItem(TypedDict):
    """One loading of a tool."""

    step: int
    stage: int
    tool: str
    operation: str
    holes: list[str]
    count: int
    spindle_speed: float | None
    spindle_speeds: list[float]
    feed: float | None
    time: float | None
    tool_change: float
    positioning: float


class Margin(TypedDict):
    """Room between a drill and the limits of the hole."""

    below_max: float | None
    above_min: float | None


class MarginInFigures(TypedDict):
    """Room between a drill and the limits of the hole."""

    below_max: NotRequired[float]
    above_min: NotRequired[float]


class MaterialSection(TypedDict):
    """The part material as far as it is known."""

    name: str
    family: str | None
    iso_group: str | None
    chip_type: str | None
    hardness: HardnessItem
    tensile_strength: float | None
    yield_strength: float | None
    shear_strength: float | None
    value_basis: str | None


class MaterialSectionInFigures(TypedDict):
    """The part material as far as it is known."""

    name: str
    family: NotRequired[str]
    iso_group: NotRequired[str]
    chip_type: NotRequired[str]
    hardness: HardnessItemInFigures
    tensile_strength: NotRequired[float]
    yield_strength: NotRequired[float]
    shear_strength: NotRequired[float]
    value_basis: NotRequired[str]


Method = Literal["cut", "form"]


class NotComparedItem(TypedDict):
    """A field that only one of the two versions has."""

    pointer: str
    why: Literal["not_kept", "no_longer_answered"]


class NoteHoleItem(TypedDict):
    """A tapped hole of the note."""

    request: dict[str, Any]
    count: int | None
    ready: bool
    missing: list[str]
    as_written: AsWrittenSection
    as_planned: dict[str, Any] | None
    finish: str | None
    dimensions_apply: DimensionsApply | None
    assumptions: list[str]
    read_from: list[NoteSpanItem]


class NoteQuestionItem(TypedDict):
    """What the note leaves open: a person answers."""

    code: Literal["thread_ambiguous", "depth_of_what", "count_ambiguous", "class_conflict", "drill_disagrees", "unit_unknown", "not_a_tapped_hole"]
    text: str
    options: list[str]
    hole: int | None
    start: int | None
    end: int | None


class NoteReply(TypedDict):
    """Reply of POST /v1/notes/read."""

    units: Units
    notice: str
    assumptions: list[str]
    cautions: list[CautionItem]
    sources: list[SourceItem]
    tables_version: str
    rules_version: str
    derivation: NotRequired[list[StepItem]]
    holes: list[NoteHoleItem]
    unread: list[UnreadItem]
    questions: list[NoteQuestionItem]
    general: list[GeneralNoteItem]
    not_holes: list[NoteSpanItem]


NoteSpanItem = TypedDict(
    "NoteSpanItem",
    {
        "start": "int",
        "end": "int",
        "as": "str",
    },
)
"""A piece of the note and what it was read as."""


class OperationInFigures(TypedDict):
    """One line of a routing, its tool in a word, with the figures that stand in no section."""

    sequence: int
    operation: str
    tool: dict[str, Any]
    time: NotRequired[float]
    text: str
    parameters: NotRequired[dict[str, Any]]


class OperationInShort(TypedDict):
    """One line of a routing, its tool in a word."""

    sequence: int
    operation: str
    tool: dict[str, Any]
    time: NotRequired[float]
    text: str


class OperationItem(TypedDict):
    """One line of a routing."""

    sequence: int
    operation: str
    tool: dict[str, Any]
    parameters: dict[str, Any]
    time: NotRequired[float]
    text: str


class OtherEdition(TypedDict):
    """The limits by the edition of the standard that the answer does not follow."""

    edition: str
    internal: DiameterLimits
    external: DiameterLimits


class OutlierItem(TypedDict):
    """A value that lies outside of what the others tell; it is kept unless the request says otherwise."""

    measurement: int
    value: float


class OvertapItem(TypedDict):
    """Oversize system for hot-dip zinc."""

    standard: str
    system: str
    amount: float
    limits: DiameterLimits


class PartDecisionItem(TypedDict):
    """What a person must decide on the plan."""

    code: str
    hole: str
    text: str


class PartPlanReply(TypedDict):
    """Reply of POST /v1/part-plans."""

    units: Units
    notice: str
    assumptions: list[str]
    cautions: list[CautionItem]
    sources: list[SourceItem]
    tables_version: str
    rules_version: str
    derivation: NotRequired[list[StepItem]]
    part: str | None
    verdict: Verdict
    review: list[PartDecisionItem]
    refused: list[RefusedHoleItem]
    tools: list[PartToolItem]
    saved: SavedSection
    proof: ProofSection
    changes: list[ChangeItem]
    sequence: list[LoadingItem]
    away_from_spindle: list[AwayItem]
    time: PartTimeSection
    kit: KitSection
    holes: list[HoleSpecReply | HoleSpecFigures | HoleSpecRouting]


class PartTimeSection(TypedDict):
    """Time of a part."""

    cutting: float
    tool_changes: float
    positioning: float
    total: float
    per_lot: float
    loadings: int
    untimed: int


class PartToolItem(TypedDict):
    """A tool of the plan."""

    tool: str
    kind: str
    details: dict[str, Any]
    diameter: float | None
    holes: list[str]
    count: int
    in_stock: bool | None
    availability: Availability


class PeckItem(TypedDict):
    """Peck advice."""

    depth_over_diameter: float
    first: float | None
    next: float | None
    count: int


class PeckItemInFigures(TypedDict):
    """Peck advice."""

    depth_over_diameter: float
    first: NotRequired[float]
    next: NotRequired[float]
    count: int


PlainPlugItem = TypedDict(
    "PlainPlugItem",
    {
        "class": "str | None",
        "go": "Limits",
        "not_go": "Limits",
    },
)
"""GO and NOT GO plain plugs for the minor diameter."""


PlainPlugItemInFigures = TypedDict(
    "PlainPlugItemInFigures",
    {
        "class": "NotRequired[str]",
        "go": "Limits",
        "not_go": "Limits",
    },
)
"""GO and NOT GO plain plugs for the minor diameter."""


class PosteriorItem(TypedDict):
    """What is believed after the data."""

    mean: float
    standard_deviation: float
    weight: float
    far_from_published: bool


class PriorItem(TypedDict):
    """The published figure."""

    mean: float
    standard_deviation: float


class Problem(TypedDict):
    """A problem (RFC 9457)."""

    type: str
    title: str
    status: int
    detail: str
    remedy: NotRequired[str]
    instance: str
    code: str
    request_id: str
    errors: list[ProblemFault]


class ProblemFault(TypedDict):
    """One refused field."""

    pointer: str
    code: str
    detail: str
    allowed: NotRequired[list[str]]
    did_you_mean: NotRequired[list[str]]


class ProblemList(TypedDict):
    """Every problem that an answer can carry."""

    items: list[ProblemMeaning]


class ProblemMeaning(TypedDict):
    """What one problem means."""

    type: str
    code: str
    status: int
    title: str
    cause: str
    example: str
    remedy: str


class ProofSection(TypedDict):
    """What is proved of the choice."""

    optimal: bool
    bound: int
    proved: list[str]
    loss: float | None
    loss_bound: float | None
    order_optimal: bool


class PurposeLimitsSection(TypedDict):
    """The limits by what they are for."""

    to_tap: DiameterLimits
    finished: DiameterLimits
    gauge_now: Literal["to_tap", "finished"]


class RatioBand(TypedDict):
    """A ratio that is only known within limits."""

    value: float
    low: float
    high: float


class ReachSection(TypedDict):
    """What the tools must reach and pass."""

    access_depth: float
    clearance_diameter: float | None
    drill_reach: float
    tap_reach: float
    length: str
    shank: str
    drill: ToolReachItem | None
    tap: ToolReachItem | None
    advice: list[str]


class ReachSectionInFigures(TypedDict):
    """What the tools must reach and pass."""

    access_depth: float
    clearance_diameter: NotRequired[float]
    drill_reach: float
    tap_reach: float
    length: str
    shank: str
    drill: NotRequired[ToolReachItemInFigures]
    tap: NotRequired[ToolReachItemInFigures]


class RecommendedTap(TypedDict):
    """The tap that cuts first, with the one that finishes what it cannot reach."""

    style: str
    chamfer: ChamferItem
    limit: TapLimitItem | None
    fit: FitItem | None
    substrate: str
    surface: str
    marking: str
    acceptance: float | None
    in_stock: bool | None
    availability: Availability
    order_text: str | None
    equivalents: list[TapLimitItem]
    reasons: list[str]
    second_tap: TapItem | None


class RecommendedTapInFigures(TypedDict):
    """The tap that cuts first, with the one that finishes what it cannot reach."""

    style: str
    chamfer: ChamferItemInFigures
    limit: NotRequired[TapLimitItem]
    fit: NotRequired[FitItemInFigures]
    substrate: str
    surface: str
    marking: str
    acceptance: NotRequired[float]
    in_stock: NotRequired[bool]
    availability: Availability
    order_text: NotRequired[str]
    equivalents: list[TapLimitItem]
    second_tap: NotRequired[TapItemInFigures]


class RefusedHoleItem(TypedDict):
    """A hole that is not planned."""

    hole: str
    errors: list[ProblemFault]


class RejectedDrillItem(TypedDict):
    """A drill that was not taken."""

    label: str
    diameter: float
    reason: str


class RejectedTapItem(TypedDict):
    """A tap limit or style that was not taken."""

    label: str
    reason: str


class RemainingTolerance(TypedDict):
    """What the finish leaves for the tool."""

    pitch_diameter: float | None
    minor_diameter: float | None


class RemainingToleranceInFigures(TypedDict):
    """What the finish leaves for the tool."""

    pitch_diameter: NotRequired[float]
    minor_diameter: NotRequired[float]


class RemarkItem(TypedDict):
    """Something that must be known of a figure."""

    code: str
    text: str


class ReworkBatchReply(TypedDict):
    """Reply of POST /v1/rework/batch."""

    summary: ReworkSummary
    columns: NotRequired[list[HeadingRead]]
    results: list[ReworkResult]


class ReworkProof(TypedDict):
    """The figures that speak for a way; each is there where the way has it."""

    hole_diameter: NotRequired[float]
    minor_diameter_max: NotRequired[float]
    minor_short_by: NotRequired[float]
    percent_of_thread: NotRequired[float]
    percent_if_formed: NotRequired[float]
    pitch_diameter: NotRequired[float]
    pitch_diameter_max: NotRequired[float]
    pitch_diameter_max_looser: NotRequired[float]
    over_by: NotRequired[float]
    window: NotRequired[Limits]
    window_before_finish: NotRequired[Limits]
    short_by: NotRequired[float]
    limits_inside_window: NotRequired[list[str]]
    tap_limit: NotRequired[str]
    tap_pitch_diameter: NotRequired[Limits]
    coat_needed: NotRequired[float]
    minor_closes_by: NotRequired[float]
    coat: NotRequired[float]
    cut_per_side: NotRequired[float]
    bare_after_chase: NotRequired[bool]
    envelope: NotRequired[float]
    new_minor_diameter: NotRequired[Limits]
    cleans_up: NotRequired[Literal["full_any_hole", "full_upper_hole", "partial", "no", "unknown"]]
    radial_clean_up: NotRequired[float]
    percent_left: NotRequired[float]
    wall_before: NotRequired[float]
    wall_after: NotRequired[float]
    insert_length: NotRequired[float]
    full_thread_depth: NotRequired[float]
    drill_depth_bottoming_tap: NotRequired[float]
    drill_depth_plug_tap: NotRequired[float]
    floor_left_bottoming: NotRequired[float]
    floor_left_plug: NotRequired[float]
    full_thread_depth_measured: NotRequired[float]
    full_thread_depth_wanted: NotRequired[float]
    full_thread_depth_sound: NotRequired[float]
    threads_sound: NotRequired[float]
    missing: NotRequired[float]
    drill_depth: NotRequired[float]
    tap_chamfer: NotRequired[float]
    deepest_full_thread: NotRequired[float]
    drill_depth_needed: NotRequired[float]
    extra_drill_depth: NotRequired[float]
    floor_left: NotRequired[float]
    tap_diameter: NotRequired[float]
    external_shear_area_ratio: NotRequired[float]
    internal_shear_area_ratio: NotRequired[float]
    length_of_engagement: NotRequired[float]
    required_length: NotRequired[float]
    safety_factor: NotRequired[float]
    safety_factor_as_drawn: NotRequired[float]
    fails_first: NotRequired[FailsFirst]


class ReworkReply(TypedDict):
    """Reply of POST /v1/rework."""

    units: Units
    notice: str
    assumptions: list[str]
    cautions: list[CautionItem]
    sources: list[SourceItem]
    tables_version: str
    rules_version: str
    derivation: NotRequired[list[StepItem]]
    id: str | None
    thread: str
    condition: str
    stage: DimensionsApply
    ways: list[ReworkWayItem]
    ruled_out: list[RuledOutItem]


class ReworkResult(TypedDict):
    """The answer to one hole."""

    index: int
    row: NotRequired[int]
    same_id_as_row: NotRequired[int]
    id: str | None
    status: ItemStatus
    rework: NotRequired[ReworkReply]
    problem: NotRequired[ItemProblem]


class ReworkSummary(TypedDict):
    """How a batch of holes that went wrong came out."""

    items: int
    ok: int
    failed: int
    verdicts: DispositionCounts


class ReworkWayItem(TypedDict):
    """One way to go on."""

    way: str
    disposition: Literal["use_as_is", "rework", "repair", "scrap"]
    regrade: bool
    conforms: bool
    needs_authority: bool
    authority: str
    text: str
    thread: NotRequired[str]
    proof: ReworkProof
    request: NotRequired[dict[str, Any]]
    specification: NotRequired[WaySpecification]
    operations: list[OperationItem]
    cautions: list[CautionItem]
    sources: list[SourceItem]


class RowRead(TypedDict):
    """A row of a sheet as a request."""

    index: int
    row: int
    same_id_as_row: NotRequired[int]
    id: str | None
    status: ItemStatus
    request: NotRequired[dict[str, Any]]
    problem: NotRequired[ItemProblem]


class RowSummary(TypedDict):
    """How a sheet was read."""

    items: int
    ok: int
    failed: int
    verdicts: RowVerdictCounts


class RowVerdictCounts(TypedDict):
    """Rows by what became of them."""

    read: int


class RuledOutItem(TypedDict):
    """A way that is none here."""

    way: str
    why: str


SavedSection = TypedDict(
    "SavedSection",
    {
        "tools": "int",
        "from": "int",
        "to": "int",
    },
)
"""How many tools the plan saves."""


class SheetReadReply(TypedDict):
    """Reply of POST /v1/hole-specs/requests."""

    summary: RowSummary
    columns: list[HeadingRead]
    results: list[RowRead]


class ShopFiguresReply(TypedDict):
    """Reply of POST /v1/shop-figures/fit."""

    units: Units
    notice: str
    assumptions: list[str]
    cautions: list[CautionItem]
    sources: list[SourceItem]
    tables_version: str
    rules_version: str
    derivation: NotRequired[list[StepItem]]
    shop_figures: KeptFigures
    fit: list[FittedItem]
    changes: list[ChangedItem]
    compared: int
    confidence: float


SourceItem = TypedDict(
    "SourceItem",
    {
        "for": "str",
        "document": "str",
        "edition": "str",
        "locator": "str",
        "status": "SourceStatus",
    },
)
"""Where a figure comes from."""


SourceStatus = Literal["published", "computed", "measured", "second_hand", "common_practice", "from_memory"]


class Span(TypedDict):
    """A range of a number without unit."""

    min: float | None
    max: float | None


class SpanInFigures(TypedDict):
    """A range of a number without unit."""

    min: NotRequired[float]
    max: NotRequired[float]


class SpeedRange(TypedDict):
    """Range of a cutting speed."""

    min: float
    max: float


class StandardItem(TypedDict):
    """The document that defines a thread."""

    document: str
    edition: str


class StepItem(TypedDict):
    """One step of a derivation; its figures are in its own `unit`, that of the standard, not of `unit_system`."""

    quantity: str
    formula: str
    inputs: dict[str, Any]
    value: Any
    unit: str
    source: str


class StrengthSection(TypedDict):
    """Strength of the joint with the screw whose grade was given."""

    length_of_engagement: float
    complete_length: float
    required_length: float
    screw_grade: str
    screw_tensile_force: float
    internal_strip_force: float
    external_strip_force: float
    fails_first: FailsFirst
    safety_factor: float


class TapCutItem(TypedDict):
    """Cutting data of the tap; null where nothing is held or the tap is driven by hand."""

    cutting_speed: float | None
    cutting_speed_range: SpeedRange | None
    spindle_speed: int | None
    feed: float
    torque: TorqueBand | None
    breaking_torque: TorqueBand | None
    break_margin: RatioBand | None
    clutch_torque: float | None
    power: float | None
    time: float | None


class TapCutItemInFigures(TypedDict):
    """Cutting data of the tap; null where nothing is held or the tap is driven by hand."""

    cutting_speed: NotRequired[float]
    cutting_speed_range: NotRequired[SpeedRange]
    spindle_speed: NotRequired[int]
    feed: float
    torque: NotRequired[TorqueBand]
    breaking_torque: NotRequired[TorqueBand]
    break_margin: NotRequired[RatioBand]
    clutch_torque: NotRequired[float]
    power: NotRequired[float]
    time: NotRequired[float]


class TapDecodeReply(TypedDict):
    """Reply of POST /v1/taps/decode."""

    units: Units
    notice: str
    assumptions: list[str]
    cautions: list[CautionItem]
    sources: list[SourceItem]
    tables_version: str
    rules_version: str
    derivation: NotRequired[list[StepItem]]
    marking: str
    thread: ThreadSection
    style: str | None
    substrate: str | None
    ground: bool
    limit: TapLimitItem | None
    hand: Hand
    surface: str | None
    chamfer: ChamferItem | None
    holds: list[HoldItem]
    unread: list[str]


class TapItem(TypedDict):
    """A tap."""

    style: str
    chamfer: ChamferItem
    limit: TapLimitItem | None
    fit: FitItem | None
    substrate: str
    surface: str
    marking: str
    acceptance: float | None
    in_stock: bool | None
    availability: Availability
    order_text: str | None
    equivalents: list[TapLimitItem]
    reasons: list[str]


class TapItemInFigures(TypedDict):
    """A tap."""

    style: str
    chamfer: ChamferItemInFigures
    limit: NotRequired[TapLimitItem]
    fit: NotRequired[FitItemInFigures]
    substrate: str
    surface: str
    marking: str
    acceptance: NotRequired[float]
    in_stock: NotRequired[bool]
    availability: Availability
    order_text: NotRequired[str]
    equivalents: list[TapLimitItem]


class TapLimitItem(TypedDict):
    """Pitch-diameter limit of a tap."""

    label: str
    pitch_diameter: Limits
    status: SourceStatus


class TapReply(TypedDict):
    """Reply of POST /v1/taps/recommend."""

    units: Units
    notice: str
    assumptions: list[str]
    cautions: list[CautionItem]
    sources: list[SourceItem]
    tables_version: str
    rules_version: str
    derivation: NotRequired[list[StepItem]]
    thread: str
    limits_to_make: LimitsToMake | None
    recommended: RecommendedTap
    alternatives: list[RecommendedTap]
    rejected: list[RejectedTapItem]
    review: list[DecisionItem]


class TapSection(TypedDict):
    """The choice of a tap."""

    thread: str
    limits_to_make: LimitsToMake | None
    recommended: RecommendedTap
    alternatives: list[RecommendedTap]
    rejected: list[RejectedTapItem]


class TapSectionInFigures(TypedDict):
    """The choice of a tap."""

    recommended: RecommendedTapInFigures


class ThreadCatalogReply(TypedDict):
    """Reply of GET /v1/threads/catalog."""

    items: list[CatalogItem]
    page: int
    page_size: int
    pages: int
    total: int
    units: NotRequired[Units]
    tables_version: str


class ThreadMemberItem(TypedDict):
    """One end of a thread plug: the zone its maker may use."""

    pitch_diameter: Limits
    major_diameter: Limits | None
    wear_limit: float | None


class ThreadMemberItemInFigures(TypedDict):
    """One end of a thread plug: the zone its maker may use."""

    pitch_diameter: Limits
    major_diameter: NotRequired[Limits]
    wear_limit: NotRequired[float]


class ThreadPlugItem(TypedDict):
    """GO and NOT GO thread plugs."""

    system: str | None
    tolerance: str | None
    go: ThreadMemberItem
    not_go: ThreadMemberItem


class ThreadPlugItemInFigures(TypedDict):
    """GO and NOT GO thread plugs."""

    system: NotRequired[str]
    tolerance: NotRequired[str]
    go: ThreadMemberItemInFigures
    not_go: ThreadMemberItemInFigures


ThreadReply = TypedDict(
    "ThreadReply",
    {
        "units": "Units",
        "notice": "str",
        "assumptions": "list[str]",
        "cautions": "list[CautionItem]",
        "sources": "list[SourceItem]",
        "tables_version": "str",
        "rules_version": "str",
        "derivation": "NotRequired[list[StepItem]]",
        "designation": "str",
        "system": "str",
        "series": "str | None",
        "class": "str | None",
        "hand": "Hand",
        "starts": "int",
        "nominal_diameter": "float",
        "pitch": "float",
        "threads_per_inch": "float | None",
        "lead": "float",
        "thread_angle": "float",
        "taper": "float | None",
        "standard": "StandardItem",
        "basic": "BasicDiameters",
        "internal": "DiameterLimits",
        "external": "DiameterLimits | None",
        "mating_class": "str | None",
        "tensile_stress_area": "float | None",
        "pipe": "NotRequired[dict[str, Any]]",
        "insert": "NotRequired[dict[str, Any]]",
        "tolerance": "NotRequired[dict[str, Any]]",
        "other_edition": "NotRequired[OtherEdition]",
        "engagement": "NotRequired[dict[str, Any]]",
        "external_reference": "NotRequired[dict[str, Any]]",
        "external_root": "NotRequired[dict[str, Any]]",
        "truncation": "NotRequired[dict[str, Any]]",
        "multi_start": "NotRequired[dict[str, Any]]",
        "mates": "NotRequired[dict[str, Any]]",
    },
)
"""Reply of POST /v1/threads/resolve."""


ThreadSection = TypedDict(
    "ThreadSection",
    {
        "designation": "str",
        "system": "str",
        "series": "str | None",
        "class": "str | None",
        "hand": "Hand",
        "starts": "int",
        "nominal_diameter": "float",
        "pitch": "float",
        "threads_per_inch": "float | None",
        "lead": "float",
        "thread_angle": "float",
        "taper": "float | None",
        "standard": "StandardItem",
        "basic": "BasicDiameters",
        "internal": "DiameterLimits",
        "external": "DiameterLimits | None",
        "mating_class": "str | None",
        "tensile_stress_area": "float | None",
        "pipe": "NotRequired[dict[str, Any]]",
        "insert": "NotRequired[dict[str, Any]]",
        "tolerance": "NotRequired[dict[str, Any]]",
        "other_edition": "NotRequired[OtherEdition]",
        "engagement": "NotRequired[dict[str, Any]]",
        "external_reference": "NotRequired[dict[str, Any]]",
        "external_root": "NotRequired[dict[str, Any]]",
        "truncation": "NotRequired[dict[str, Any]]",
        "multi_start": "NotRequired[dict[str, Any]]",
        "mates": "NotRequired[dict[str, Any]]",
    },
)
"""A thread and its limits of size. Further objects hold what only one system has."""


ThreadSectionInFigures = TypedDict(
    "ThreadSectionInFigures",
    {
        "designation": "str",
        "system": "str",
        "series": "NotRequired[str]",
        "class": "NotRequired[str]",
        "hand": "Hand",
        "starts": "int",
        "nominal_diameter": "float",
        "pitch": "float",
        "threads_per_inch": "NotRequired[float]",
        "lead": "float",
        "thread_angle": "float",
        "taper": "NotRequired[float]",
        "standard": "StandardItem",
        "basic": "BasicDiameters",
        "internal": "DiameterLimits",
        "external": "NotRequired[DiameterLimits]",
        "mating_class": "NotRequired[str]",
        "tensile_stress_area": "NotRequired[float]",
        "pipe": "NotRequired[dict[str, Any]]",
        "insert": "NotRequired[dict[str, Any]]",
        "tolerance": "NotRequired[dict[str, Any]]",
        "other_edition": "NotRequired[OtherEdition]",
        "engagement": "NotRequired[dict[str, Any]]",
        "external_reference": "NotRequired[dict[str, Any]]",
        "external_root": "NotRequired[dict[str, Any]]",
        "truncation": "NotRequired[dict[str, Any]]",
        "multi_start": "NotRequired[dict[str, Any]]",
        "mates": "NotRequired[dict[str, Any]]",
    },
)
"""A thread and its limits of size. Further objects hold what only one system has."""


class ToolReachItem(TypedDict):
    """A standard tool that reaches the bottom; the sources say which lengths are published."""

    kind: str
    document: str
    overall_length: float
    cutting_length: float | None
    shank_diameter: float | None
    left_for_holder: float


class ToolReachItemInFigures(TypedDict):
    """A standard tool that reaches the bottom; the sources say which lengths are published."""

    kind: str
    document: str
    overall_length: float
    cutting_length: NotRequired[float]
    shank_diameter: NotRequired[float]
    left_for_holder: float


class TorqueBand(TypedDict):
    """A torque that is only known within limits: the model is not validated."""

    value: float
    low: float
    high: float


UnitSystem = Literal["inch", "metric"]


class Units(TypedDict):
    """Units of the numbers in this reply. Angles are degrees, spindle speeds rev/min, times seconds."""

    length: str
    cutting_speed: str
    feed: str
    torque: str
    power: str
    force: str
    stress: str


class UnreadItem(TypedDict):
    """A piece of the note that no rule read."""

    start: int
    end: int
    text: str


Verdict = Literal["ready", "review", "infeasible"]


class VerdictCounts(TypedDict):
    """Items by verdict."""

    ready: int
    review: int
    infeasible: int


class VersionReply(TypedDict):
    """Reply of GET /v1/version."""

    version: str
    api: str
    tables_version: str


class WaySpecification(TypedDict):
    """What POST /v1/hole-specs answers to the `request` of a way; with `detail` it has further fields."""

    spec_id: str
    verdict: Verdict
    review: list[DecisionItem]
    headline: HeadlineSection


class WordsItem(TypedDict):
    """A piece of the note that is kept in its own words."""

    about: str
    text: str


class WrittenCounterbore(TypedDict):
    """A counterbore or spotface of a note."""

    diameter: float | None
    depth: float | None


class WrittenCountersink(TypedDict):
    """A countersink of a note."""

    diameter: float | None
    angle: float | None
