"""The tables of the American taper pipe threads as typed rows (inches)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from borewright.core.caches import read_once
from borewright.core.citation import Cite, cite
from borewright.tables import load


@dataclass(frozen=True, slots=True)
class TaperSize:
    """A row of ANSI/ASME B1.20.1 Table 2, by the symbols of the standard; lengths and diameters in inches.

    ``makeup`` is the cite of L3, E3, V, L4, L5, E5 and K0, which are formula values from 3 1/2 up.
    """

    size: str
    pipe_od_in: Decimal
    threads_per_inch: Decimal
    e0_in: Decimal
    l1_in: Decimal
    e1_in: Decimal
    l2_in: Decimal
    e2_in: Decimal
    l3_in: Decimal
    e3_in: Decimal
    v_in: Decimal
    l4_in: Decimal
    l5_in: Decimal
    e5_in: Decimal
    k0_in: Decimal
    place: Cite
    makeup: Cite


@dataclass(frozen=True, slots=True)
class PipeForm:
    """Truncation limits of crest and root at a pitch, and the height of the sharp V (inches).

    ``printed`` is what the standard tabulates of the form, by field of the ``truncation`` object.
    """

    sharp_height_in: Decimal
    crest_min_in: Decimal
    crest_max_in: Decimal
    root_min_in: Decimal
    root_max_in: Decimal
    printed: Mapping[str, Decimal]
    place: Cite


@dataclass(frozen=True, slots=True)
class DrysealSize:
    """What NPTF has of its own; everything else is the NPT row of the size (inches)."""

    l3_in: Decimal
    e3_in: Decimal
    minor_at_l1_in: Decimal
    minor_at_l1_l3_in: Decimal
    drill_oversize_in: Decimal
    unsettled: bool
    makeup: Cite
    place: Cite


_NPT_FORM = (
    "sharp_height_in",
    "height_max_in",
    "height_min_in",
    "truncation_min_in",
    "truncation_max_in",
    "flat_min_in",
    "flat_max_in",
)
_TRUNCATION = ("crest_min_in", "crest_max_in", "root_min_in", "root_max_in")
_NUMBERS = ("e0_in", "l1_in", "e1_in", "l2_in", "e2_in", "l3_in", "e3_in", "v_in", "l4_in", "l5_in", "e5_in", "k0_in")


@read_once
def npt_rows() -> Mapping[str, TaperSize]:
    """NPT sizes by label, smallest first."""
    table = load("npt")
    return MappingProxyType(
        {
            row["size"]: TaperSize(
                size=row["size"],
                pipe_od_in=Decimal(row["pipe_od_in"]),
                threads_per_inch=Decimal(row["threads_per_inch"]),
                place=cite(table.name),
                makeup=cite(table.name, status=row["status_makeup"]),
                **{name: Decimal(row[name]) for name in _NUMBERS},
            )
            for row in table.rows
        }
    )


def _printed(row: Mapping[str, str], columns: tuple[str, ...]) -> Mapping[str, Decimal]:
    return MappingProxyType({name.removesuffix("_in"): Decimal(row[name]) for name in columns})


@read_once
def projections() -> Mapping[str, tuple[Decimal, Cite]]:
    """How far the tap of a size stands through the L1 ring gauge (inches), by label, where it is held."""
    table = load("tap_projection_npt")
    return MappingProxyType(
        {row["size"]: (Decimal(row["projection_in"]), cite(table.name, status=row["status"])) for row in table.rows}
    )


@read_once
def npt_form() -> Mapping[Decimal, PipeForm]:
    """Truncation of the NPT form by threads per inch; crest and root share the limits."""
    table = load("npt_form")
    forms = {}
    for row in table.rows:
        least, most = Decimal(row["truncation_min_in"]), Decimal(row["truncation_max_in"])
        forms[Decimal(row["threads_per_inch"])] = PipeForm(
            Decimal(row["sharp_height_in"]), least, most, least, most, _printed(row, _NPT_FORM), cite(table.name)
        )
    return MappingProxyType(forms)


@read_once
def dryseal_form() -> Mapping[Decimal, PipeForm]:
    """Truncation of the dryseal form by threads per inch."""
    table = load("nptf_form")
    return MappingProxyType(
        {
            (count := Decimal(row["threads_per_inch"])): PipeForm(
                sharp_height_in=npt_form()[count].sharp_height_in,
                printed=_printed(row, _TRUNCATION),
                place=cite(table.name),
                **{name: Decimal(row[name]) for name in _TRUNCATION},
            )
            for row in table.rows
        }
    )


@read_once
def dryseal_rows() -> Mapping[str, DrysealSize]:
    """NPTF sizes by label, smallest first."""
    table = load("nptf")
    return MappingProxyType(
        {
            row["size"]: DrysealSize(
                Decimal(row["l3_in"]),
                Decimal(row["e3_in"]),
                Decimal(row["minor_at_l1_in"]),
                Decimal(row["minor_at_l1_l3_in"]),
                Decimal(row["drill_oversize_in"]),
                bool(row["flag"]),
                cite(table.name, column="l3_in"),
                cite(table.name),
            )
            for row in table.rows
        }
    )
