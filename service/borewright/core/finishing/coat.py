"""From what the caller gave to what lies on the flank: thickness, build-up a surface, growth by heat treatment.

The build-up counted inside the thread has a minimum of zero wherever the specification exempts holes or plates them
thin, because raising the upper limit for metal that may not be there would leave the deep end oversize. The minimum
counts where the deposit follows the hole (electroless, immersion, anodize) or where the caller states the thickness.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from borewright.core.caches import cached
from borewright.core.derivation import steps_made_again
from borewright.core.errors import FinishError
from borewright.core.model import Finish, FinishInput, Notes, Range, Source, Step, Unit
from borewright.core.model.decision import Decision
from borewright.core.practice import figure
from borewright.core.quantity_text import marked
from borewright.core.record import Record

from . import doubtful, nominal, requested_finish
from .finish_text import FinishReading
from .products import Product, products
from .requested_finish import NO_LENGTH

_CACHED = 128
_ZERO = Decimal(0)
_UNIT_NAMES: dict[Unit, str] = {"in": "inches", "mm": "millimetres"}
HEAT_FAMILY = "heat_treatment"

MAX_FROM_MIN = figure("coat_max_over_min")
_ADVICE = Source(
    "finish.thickness.max",
    "ASME B1.1",
    "1989, 2003",
    f"7.4.2, 7.5.2; Machinery's Handbook 27th ed. p. 1793 ({MAX_FROM_MIN} times where no maximum is given)",
    "published",
)
_WHY_NO_MAX = {
    "one_and_a_half": "the specification states no maximum thickness",
    "drawing": "the class leaves the maximum thickness to the drawing, which governs",
    "gauge": "no maximum thickness is published, the thread gauge governs",
}


@dataclass(frozen=True, slots=True, eq=False)
class Coat:
    """A finish with its figures in the thread's unit; ``build_up`` and ``heat`` have both ends set.

    ``heat`` is on diameter, positive where the thread becomes larger; ``direct`` tells that the caller stated the
    thickness;
    """

    product: Product | None
    thickness: Range
    growth: Range
    build_up: Range
    heat: Range
    direct: bool
    masked: bool
    notes: Notes
    doubt: Decision | None = None

    def finish(self) -> Finish:
        """The finish as a reply shows it."""
        row = self.product
        afterwards = row is not None and row.after_finish
        return Finish(
            specification=row.specification.name if row is not None else None,
            finish_class=row.finish_class if row is not None else None,
            process=row.process if row is not None else "heat treatment" if self.heat is not NO_LENGTH else None,
            thickness=self.thickness,
            growth_fraction=self.growth,
            build_up=self.build_up,
            applied="masked" if self.masked else "after_finish" if afterwards else "before_finish",
        )


@cached(_CACHED)
@steps_made_again
def coat(finish: FinishInput, *, unit: Unit, on_steel: bool = False) -> Coat:
    """Thickness and build-up of a ``finish``, in ``unit``.

    Args:
        finish: as the caller gave it.
        unit: unit of the thread's standard, in which all figures come back.
        on_steel: the part is steel.

    Raises:
        FinishError: the finish cannot be read, contradicts itself, or no thickness is known.

    Source: finishes.csv; ASME B1.1 7.5.2 for a maximum where none is given.
    """
    requested_finish.refuse_contradictions(finish)
    reading = requested_finish.reading(finish, unit, on_steel)
    record = Record(reading.assumptions if reading is not None else ())
    row = reading.product if reading is not None else None
    heat = requested_finish.heat(finish.heat_treat_growth, unit)
    stated = _meant(finish, requested_finish.stated(finish, reading, unit), reading, unit, record)
    thickness = _thickness(finish, row, stated, unit, record)
    growth = _growth(finish, row, thickness, record)
    direct = stated is not None
    build_up = NO_LENGTH
    if not _keeps_off(finish, row):
        build_up = _build_up(thickness, growth, row, direct, unit, record)
    if row is not None and row.note:
        record.assumptions.append(marked(f"{row.label}: {row.note}"))
    return Coat(
        product=row,
        thickness=thickness,
        growth=growth,
        build_up=build_up,
        heat=heat,
        direct=direct,
        masked=finish.masked,
        notes=record.notes(),
        doubt=None if reading is None else doubtful.doubt(reading.thickness),
    )


def _meant(
    finish: FinishInput, stated: Range | None, reading: FinishReading | None, unit: Unit, record: Record
) -> Range | None:
    """The thickness stated; None where it is the class's own, limits where it is another nominal of the class."""
    written = None if reading is None else reading.thickness
    if written is not None and written.bare:
        record.assumptions.append(f"the thickness has no unit: it is read in {_UNIT_NAMES[written.unit]}")
    if stated is None or stated.min is None or stated.max is not None or reading is None:
        return stated
    if finish.at_least or (written is not None and written.at_least):
        return stated
    found = nominal.meant(stated.min, reading.product, unit)
    if found is None:
        return stated
    record.assumptions.append(found.said)
    if found.source is not None:
        record.sources.append(found.source)
    return found.thickness


@cached(_CACHED)
def of_product(row: Product, unit: Unit) -> Range:
    """Build-up a surface, in ``unit``, inside a thread for a ``row`` of the table: what :func:`coat` would count."""
    printed = row.thickness(unit)
    low = printed.min or _ZERO
    high = printed.max if printed.max is not None else low * MAX_FROM_MIN
    return Range((row.growth.min or _ZERO) * low if row.in_holes else _ZERO, (row.growth.max or _ZERO) * high)


def _thickness(finish: FinishInput, row: Product | None, stated: Range | None, unit: Unit, record: Record) -> Range:
    if stated is not None:
        if row is not None:
            _compare(stated, row, unit, record)
        return _complete(stated, "only one figure of thickness is given, taken as minimum or nominal", None, record)
    if row is None:
        return Range(None, None)
    if not row.states_thickness:
        heat_only = finish.heat_treat_growth is not None and row.specification.family == HEAT_FAMILY
        if heat_only or _keeps_off(finish, row):
            return Range(None, None)
        raise _missing(row)
    if row.max_rule == "no_build_up":
        return Range(None, None)
    record.sources.append(Source("finish.thickness", row.document, row.edition, row.locator, row.status))
    if _keeps_off(finish, row):
        return row.thickness(unit)
    return _complete(row.thickness(unit), _WHY_NO_MAX.get(row.max_rule, ""), row, record)


def _keeps_off(finish: FinishInput, row: Product | None) -> bool:
    """Whether no coat reaches the thread: masked, or tapped after the finish."""
    return finish.masked or (row is not None and row.after_finish)


def _compare(stated: Range, row: Product, unit: Unit, record: Record) -> None:
    """Say what a given thickness replaces; a heat treatment has none to give."""
    if row.specification.family == HEAT_FAMILY:
        raise FinishError(
            "finish_conflict",
            f"{row.specification.name} has a case depth, not a coat on the surface: give its growth on diameter.",
            pointer="/finish/thickness",
            allowed=("heat_treat_growth",),
        )
    least = row.thickness(unit).min
    if least is None:
        return
    most = max(end for end in (stated.min, stated.max) if end is not None)
    thin = ", which is thinner than the class asks" if most < least else ""
    record.assumptions.append(f"the thickness given replaces that of {row.label}{thin}")


def _missing(row: Product) -> FinishError:
    name = row.specification.name
    return FinishError(
        "finish_thickness_missing",
        f"{name} states no thickness that is held here: take it from the drawing or order and give it.",
        pointer="/finish/thickness",
        allowed=("thickness", "heat_treat_growth", "masked"),
        did_you_mean=tuple(other.label for other in products()[name] if other.states_thickness),
    )


def _complete(printed: Range, why: str, row: Product | None, record: Record) -> Range:
    """Both ends of a thickness: 1.5 times the minimum where no maximum is known, zero where no minimum is."""
    low, high = printed.min, printed.max
    table = "table" if row is not None else "stated"
    said = row.document if row is not None else "as given"
    for end, value in (("min", low), ("max", high)):
        if value is not None:
            inputs: dict[str, object] = {"stated": value} if row is None else {"specification": row.label}
            record.steps.append(Step(f"finish.thickness.{end}", table, inputs, value, "", said))
    if high is None and low is not None:
        high = MAX_FROM_MIN * low
        formula, place = f"{MAX_FROM_MIN} * t_min", "ASME B1.1-2003 7.4.2, 7.5.2"
        record.steps.append(Step("finish.thickness.max", formula, {"t_min": low}, high, "", place))
        record.sources.append(_ADVICE)
        record.assumptions.append(f"{why}: {MAX_FROM_MIN} times the minimum is taken (ASME B1.1-2003 7.5.2)")
    if low is None:
        low = _ZERO
        record.assumptions.append("no minimum thickness is known: none is counted")
    return Range(low, high)


def _growth(finish: FinishInput, row: Product | None, thickness: Range, record: Record) -> Range:
    if finish.growth_fraction is not None:
        return Range(finish.growth_fraction, finish.growth_fraction)
    if row is not None:
        record.sources.append(
            Source("finish.growth_fraction", row.document, row.edition, f"build-up of {row.process}", row.growth_status)
        )
        return row.growth
    if thickness.max is not None:
        record.assumptions.append(
            "no process is named: the whole thickness is taken to lie on the surface (fraction 1)"
        )
    return Range(Decimal(1), Decimal(1))


def _build_up(thickness: Range, growth: Range, row: Product | None, direct: bool, unit: Unit, record: Record) -> Range:
    """Build-up a surface inside the thread."""
    if thickness.max is None or thickness.min is None or growth.min is None or growth.max is None:
        return NO_LENGTH
    high = growth.max * thickness.max
    inputs: dict[str, object] = {"fraction": growth.max, "t": thickness.max}
    record.steps.append(Step("finish.build_up.max", "fraction * t", inputs, high, unit, "build-up a surface"))
    if not direct and (row is None or not row.in_holes):
        record.steps.append(
            Step("finish.build_up.min", "0", {}, _ZERO, unit, "conservative reading: holes exempt or plated thin")
        )
        record.assumptions.append(
            "the minimum thickness does not hold inside a threaded hole (holes are exempt or plate thin), so the least"
            " build-up there is taken as zero; give the thickness itself where the drawing extends it into the hole"
        )
        return Range(_ZERO, high)
    low = growth.min * thickness.min
    inputs = {"fraction": growth.min, "t": thickness.min}
    record.steps.append(Step("finish.build_up.min", "fraction * t", inputs, low, unit, "build-up a surface"))
    why = "as the thickness is given directly" if direct else "as the deposit follows the hole"
    record.assumptions.append(f"the minimum thickness is counted inside the threaded hole, {why}")
    return Range(low, high)
