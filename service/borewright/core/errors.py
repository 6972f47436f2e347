"""One exception tree with stable codes and pointers.

Every refusal of the domain is a :class:`BorewrightError` that carries one or more
:class:`Fault`. A fault names the field (JSON pointer), says what is allowed and, where it can be
told, what was probably meant. The web layer maps codes to HTTP statuses; nothing here knows HTTP.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from difflib import get_close_matches

#: Every code the domain may raise, with the title that documents it. A test holds that each is raised.
CODES: dict[str, str] = {
    "callout_empty": "The thread callout is empty",
    "callout_too_long": "The thread callout is longer than the limit",
    "callout_unreadable": "The thread callout cannot be read",
    "callout_ambiguous": "The thread callout can mean more than one thread",
    "note_empty": "The note holds no text",
    "note_too_long": "The note is longer than 4,000 characters",
    "note_too_many_holes": "The note names more holes than are read at once",
    "note_open": "The note leaves something open that a person must settle",
    "note_several_holes": "The note names several holes where one is asked for",
    "thread_ambiguous": "The note does not fix one thread",
    "depth_of_what": "A depth of the note is missing, or can belong to more than one thing",
    "count_ambiguous": "The note does not fix the number of holes",
    "class_conflict": "The note names a class that the thread of a hole cannot have, or two",
    "drill_disagrees": "The drill that the note states does not fit its thread or its depths",
    "unit_unknown": "The note does not say whether it is in inches or in millimetres, and a length fits one only",
    "not_a_tapped_hole": "The note describes no tapped hole",
    "callout_has_depth": "The thread callout carries hole or depth text",
    "thread_system_unknown": "The thread system is not known",
    "thread_size_unknown": "The size does not exist in the thread system",
    "thread_pitch_unknown": "The pitch does not exist for the size",
    "thread_series_mismatch": "The series does not hold that size and pitch",
    "thread_class_unknown": "The class does not exist in the thread system",
    "thread_class_external": "The class is for external threads, the hole needs an internal one",
    "thread_cell_undefined": "The standard defines no tolerance for this size, pitch and class",
    "thread_lead_invalid": "The lead is not a whole multiple of the pitch",
    "thread_field_missing": "A field needed to define the thread is missing",
    "thread_field_unexpected": "A field does not apply to the thread system",
    "thread_data_missing": "The standard's figure is not held, so it is not guessed",
    "thread_mate_excluded": "The standard forbids mating these two classes",
    "engagement_out_of_range": "The length of engagement is outside the range the standard covers",
    "value_out_of_range": "A value is outside the range that can be made or computed",
    "range_inconsistent": "A minimum is above its maximum",
    "drill_not_found": "No drill of the series allowed holds the limits",
    "drill_unknown": "The drill size is not in the drill tables",
    "drill_series_unknown": "The drill series is not known",
    "percent_out_of_range": "The percent of thread is outside the range that can be made",
    "method_not_applicable": "The method does not apply to this thread or material",
    "finish_unknown": "The finish is not in the tables",
    "finish_class_unknown": "The class does not exist in the finish specification",
    "finish_ambiguous": "The finish can mean more than one entry of the tables",
    "finish_thickness_missing": "The finish specification states no thickness, so one must be given",
    "finish_conflict": "The finish fields contradict each other",
    "overtap_not_defined": "No oversize system for hot-dip zinc covers this thread",
    "shop_field_missing": "A measurement of this kind needs another field",
    "shop_field_not_of_kind": "A measurement of this kind has no such field",
    "measurement_not_of_this": "A measured value cannot belong to the drill, thread, coat or hole that is named",
    "measurements_without_spread": "All measured values are the same: the gauge reads too coarsely",
    "measurements_too_many": "More values than are fitted at once",
    "finish_range_missing": "The finish gives no range of thickness to compare with",
    "tap_marking_unreadable": "The tap marking holds no thread size",
    "tap_not_found": "No tap limit holds the thread's limits",
    "tap_limit_unknown": "The tap limit is not known",
    "hole_depth_missing": "A depth needed for this hole type is missing",
    "thread_deeper_than_hole": "The full thread is deeper than the hole or wall allows",
    "counterbore_does_not_fit": "The counterbore does not fit the thread",
    "drill_larger_than_thread": "The drill of the drawing leaves nothing to tap",
    "countersink_does_not_fit": "The countersink does not fit the hole",
    "hole_not_reachable": "The tools do not pass through the space above the hole",
    "drill_depth_limit_too_shallow": "The drill depth limit leaves no room for thread, chamfer and clearance",
    "material_unknown": "The material is not in the tables",
    "material_conflict": "The material fields contradict each other",
    "hardness_out_of_table": "The hardness is outside the conversion table",
    "hardness_unreadable": "The hardness cannot be read",
    "screw_grade_unknown": "The screw grade is not in the tables",
    "screw_size_out_of_grade": "The screw grade does not cover the size",
    "measurement_missing": "A measurement that the rework depends on is missing",
    "measured_other_thread": "The measurement is not of the thread of the drawing",
    "rework_contradiction": "What was found contradicts itself",
}


@dataclass(frozen=True, slots=True)
class Fault:
    """One refused field: stable ``code``, plain ``detail``, JSON ``pointer`` and what would be right."""

    code: str
    detail: str
    pointer: str = ""
    allowed: tuple[str, ...] = ()
    did_you_mean: tuple[str, ...] = ()


class BorewrightError(Exception):
    """A request that is readable but wrong, impossible or outside the tables."""

    def __init__(
        self,
        code: str,
        detail: str,
        *,
        pointer: str = "",
        allowed: Iterable[str] = (),
        did_you_mean: Iterable[str] = (),
    ) -> None:
        super().__init__(detail)
        if code not in CODES:
            raise LookupError(f"undocumented error code {code!r}")
        self.faults: tuple[Fault, ...] = (Fault(code, detail, pointer, tuple(allowed), tuple(did_you_mean)),)

    @property
    def code(self) -> str:
        """Code of the first fault: the code of the whole problem."""
        return self.faults[0].code

    def names(self, field: str) -> bool:
        """Whether a fault points at the ``field`` of the request, or into it."""
        return any(fault.pointer.split("/")[1:2] == [field] for fault in self.faults)

    def join(self, others: Iterable[Fault]) -> None:
        """Tell ``others`` as well, of fields that no fault points at yet."""
        for fault in others:
            if not self.names(fault.pointer.split("/")[1] if "/" in fault.pointer else ""):
                self.faults = (*self.faults, fault)

    def under(self, prefix: str) -> BorewrightError:
        """Return the same error with every pointer placed below ``prefix`` (``/thread`` + ``/class``)."""
        self.faults = tuple(replace(fault, pointer=prefix + fault.pointer) for fault in self.faults)
        return self


class CalloutError(BorewrightError):
    """The thread callout, as text or as fields, cannot be turned into one thread."""


class ThreadError(BorewrightError):
    """The thread is understood but its standard does not define it."""


class DrillingError(BorewrightError):
    """No drill, percent or hole limits can be given."""


class FinishError(BorewrightError):
    """The coating, plating or heat treatment cannot be read or has no figures."""


class TapError(BorewrightError):
    """No tap can be recommended, or a marking cannot be read."""


class ShopFigureError(BorewrightError):
    """What a shop measured cannot be fitted."""


class HoleError(BorewrightError):
    """The hole cannot be made as it is asked for."""


class MaterialError(BorewrightError):
    """The part material or screw grade is not known or contradicts itself."""


class ReworkError(BorewrightError):
    """What was found at a hole is missing, contradicts itself, or is of another thread."""

    @classmethod
    def of(cls, faults: tuple[Fault, ...]) -> ReworkError:
        """The error of several faults at once."""
        first, *_ = faults
        error = cls(first.code, first.detail)
        error.faults = faults
        return error


def shortened(text: str) -> str:
    """What an error repeats of ``text`` that was sent: at most its first 20 characters."""
    return text[:20]


def nearest(word: str, known: Iterable[str], *, most: int = 3) -> tuple[str, ...]:
    """At most ``most`` names out of ``known`` that ``word`` (any case) was probably meant to be, best first."""
    by_folded = {name.casefold(): name for name in known}
    found = get_close_matches(word[:80].casefold(), by_folded, n=most, cutoff=0.6)
    return tuple(by_folded[name] for name in found)
