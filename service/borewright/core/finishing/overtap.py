"""Threads tapped oversize after hot-dip galvanizing: inch overtap of ASTM A563, metric 6AZ and 6AX of ISO 965-5.

The zinc would fill the thread, so the hole is tapped after the bath and never retapped; the bolt's zinc protects the
bare thread. Two systems exclude each other: an oversize hole with a standard bolt, or a standard hole with a bolt cut
undersize (6az). Mixing them strips.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import cast

from borewright.core.caches import read_once
from borewright.core.citation import Cite, cite
from borewright.core.errors import FinishError
from borewright.core.model import Caution, Diameters, Overtap, Range, Source, Status, Step, Thread
from borewright.core.quantity_text import length
from borewright.core.standards.systems import traits
from borewright.tables import load

from .products import Product

_UM = Decimal("0.001")
_METRIC_CLASSES = ("6AZ", "6AX")
_REDUCED_PROOF_LOAD = (Decimal(8), Decimal(10))
_LARGE_IN = Decimal("1.5")
_UNDERSIZE_IN = Decimal("0.031")

_SYSTEMS = Caution(
    "overtap_systems_exclusive",
    "Oversize hole with a standard bolt, or standard hole with an undersize (6az) bolt: never an oversize hole with an"
    " undersize bolt, it strips.",
)
_AFTER = Caution(
    "tap_after_galvanizing",
    "Galvanize first, then tap once, oversize; do not retap and do not strip the zinc to check the fit. The bare thread"
    " relies on the zinc of the bolt.",
)


@dataclass(frozen=True, slots=True)
class OvertapAmount:
    """An overtap with what accompanies it."""

    overtap: Overtap
    assumptions: tuple[str, ...]
    cautions: tuple[Caution, ...]
    sources: tuple[Source, ...]
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class _Row:
    amount: Decimal
    status: Status


def overtap(thread: Thread, row: Product) -> OvertapAmount:
    """Oversize limits of a thread that is tapped after hot-dip galvanizing.

    Args:
        thread: Unified (UNC or 8UN, class 2B) or ISO metric coarse from M8.
        row: the hot-dip product; its class is the position (6AZ, 6AX) where the caller names one.

    Raises:
        FinishError: ``overtap_not_defined`` where no table covers the thread.

    Source: ASTM A563 overtapping table; ISO 965-5:1998.
    """
    table = traits(thread).overtap
    if table == "astm_a563":
        return _inch(thread)
    if table == "iso_965_5":
        return _metric(thread, row)
    raise _undefined(f"No oversize table for hot-dip zinc covers the system {thread.system}.")


def inch_amount(thread: Thread) -> Decimal | None:
    """Overtap on diameter of the inch table for the thread's size and pitch, None where it has none."""
    found = _a563().get((thread.system, thread.nominal_diameter, thread.threads_per_inch))
    return found.amount if found is not None else None


def _inch(thread: Thread) -> OvertapAmount:
    found = _a563().get((thread.system, thread.nominal_diameter, thread.threads_per_inch))
    if found is None:
        raise _undefined(f"The overtapping table of ASTM A563 has no {thread.designation}.")
    if thread.thread_class != "2B":
        from . import other_class

        meant = other_class.resolve(thread, "2B").designation
        raise _undefined(f"ASTM A563 moves the zone of class 2B; {thread.designation} is another class.", meant)
    source = Source("overtap", "ASTM A563", "older inch editions", "overtapping table (Table 5)", found.status)
    cautions = [_AFTER, _SYSTEMS]
    if thread.nominal_diameter > _LARGE_IN:
        cautions.append(
            Caution(
                "overtap_large",
                f"Above {length(_LARGE_IN, 'in')} it may be better to cut the bolt undersize"
                f" ({length(_UNDERSIZE_IN, 'in')}) instead.",
            )
        )
    return OvertapAmount(
        Overtap("ASTM A563", "inch overtap", found.amount, shift(thread.internal, found.amount)),
        ("the whole 2B zone is moved by the overtap, as ASTM A563 does for nuts",),
        tuple(cautions),
        (source,),
        _steps(thread.internal, found.amount, thread, "ASTM A563 overtapping table"),
    )


def _metric(thread: Thread, row: Product) -> OvertapAmount:
    own = thread.thread_class if thread.thread_class in _METRIC_CLASSES else None
    wanted = row.finish_class if row.finish_class in _METRIC_CLASSES else None
    if own is not None and wanted is not None and wanted != own:
        raise FinishError(
            "finish_conflict",
            f"The thread is {own}, the finish asks for {wanted}.",
            pointer="/finish",
            did_you_mean=(own,),
        )
    a563m = row.specification.name == "ASTM A563M"
    system = own or wanted or "6AZ"
    standard = "ASTM A563M" if a563m else "ISO 965-5"
    found = _deviation(thread, system, a563m=a563m)
    assumptions = [] if own or wanted else [_CENTRIFUGED]
    zone = thread.internal if own is not None else shift(_plain_zone(thread), found.amount)
    document = Cite(standard, "21a", "", found.status) if a563m else cite("iso965_5_overtap")
    source = document.at(f"position {system[1:]}, grade 6", found.status).source("overtap")
    return OvertapAmount(
        Overtap(standard, system, found.amount, zone),
        (*assumptions, "tolerances are those of class 6 (6H moved by the fundamental deviation)"),
        _metric_cautions(thread, system),
        (source,),
        _steps(_plain_zone(thread), found.amount, thread, f"{standard} position {system[1:]}") if own is None else (),
    )


_CENTRIFUGED = (
    "position AZ is taken, for zinc that is centrifuged (spun); ask for 6AX for a heavier coat that is not. The other"
    " system, hole 6H or 6G tapped after galvanizing with a 6az bolt, is not mixed with this one"
)


def _deviation(thread: Thread, system: str, *, a563m: bool) -> _Row:
    """Fundamental deviation of a size, from the table."""
    if a563m:
        found = _a563().get((thread.system, thread.nominal_diameter, thread.pitch))
        if found is None:
            raise _undefined(f"The overtap of ASTM A563M is held for M5 to M64 coarse, not for {thread.designation}.")
        return found
    table = _iso965_5().get((thread.nominal_diameter, thread.pitch))
    if table is None:
        raise _undefined(
            f"ISO 965-5 and ISO 10684 cover M8 to M64 coarse, not below pitch 1.25 mm: not {thread.designation}."
        )
    return table[system]


def _metric_cautions(thread: Thread, system: str) -> tuple[Caution, ...]:
    mark = "Z" if system == "6AZ" else "X"
    marked = Caution("overtap_mark", f"A nut tapped {system} is marked {mark}; say so on the drawing of a tapped part.")
    if thread.nominal_diameter not in _REDUCED_PROOF_LOAD:
        return _AFTER, _SYSTEMS, marked
    return (
        _AFTER,
        _SYSTEMS,
        marked,
        Caution(
            "overtap_reduced_load",
            "Oversize M8 and M10 have reduced proof loads (ISO 10684 Annex A): check the joint.",
        ),
    )


def shift(limits: Diameters, amount: Decimal) -> Diameters:
    """The three zones of ``limits`` moved by ``amount`` on diameter, in the same unit."""
    return Diameters(*(_moved(limit, amount) for limit in _all(limits)))


def _all(limits: Diameters) -> tuple[Range, Range, Range]:
    return limits.major_diameter, limits.pitch_diameter, limits.minor_diameter


def _moved(limit: Range, amount: Decimal) -> Range:
    return Range(*(None if end is None else end + amount for end in (limit.min, limit.max)))


def _plain_zone(thread: Thread) -> Diameters:
    """Limits of the same size in class 6H, whose tolerances 6AZ and 6AX share."""
    if thread.thread_class == "6H":
        return thread.internal
    from . import other_class

    return other_class.resolve(thread, "6H").internal


def _undefined(detail: str, meant: str | None = None) -> FinishError:
    return FinishError(
        "overtap_not_defined",
        detail,
        pointer="/thread",
        allowed=(
            "unified UNC 1/4 to 4 in and 8UN 1 1/8 to 1 1/2 in, class 2B",
            "iso_metric M8 to M64 coarse (6AZ, 6AX)",
        ),
        did_you_mean=() if meant is None else (meant,),
    )


def _steps(base: Diameters, amount: Decimal, thread: Thread, source: str) -> tuple[Step, ...]:
    steps = [Step("overtap.amount", "table", {"thread": thread.designation}, amount, thread.unit, source)]
    for name, limit in (("pitch_diameter", base.pitch_diameter), ("minor_diameter", base.minor_diameter)):
        for end, value in (("min", limit.min), ("max", limit.max)):
            if value is not None:
                steps.append(
                    Step(
                        f"overtap.limits.{name}.{end}",
                        "limit + overtap",
                        {"limit": value, "overtap": amount},
                        value + amount,
                        thread.unit,
                        source,
                    )
                )
    return tuple(steps)


@read_once
def _a563() -> Mapping[tuple[str, Decimal, Decimal | None], _Row]:
    return {
        (row["system"], Decimal(row["nominal"]), Decimal(row["pitch_or_tpi"])): _Row(
            Decimal(row["allowance"]), cast(Status, row["status"])
        )
        for row in load("a563_overtap").rows
    }


@read_once
def _iso965_5() -> Mapping[tuple[Decimal, Decimal], Mapping[str, _Row]]:
    return {
        (Decimal(row["nominal_mm"]), Decimal(row["pitch_mm"])): {
            "6AZ": _Row(Decimal(row["ei_az_um"]) * _UM, cast(Status, row["status"])),
            "6AX": _Row(Decimal(row["ei_ax_um"]) * _UM, cast(Status, row["status"])),
        }
        for row in load("iso965_5_overtap").rows
    }
