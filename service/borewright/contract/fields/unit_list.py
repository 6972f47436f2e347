"""The closed list of units, defined by pint: writes ``unit_factors.csv``, which :mod:`.units` reads at start.

pint is asked when the documents are published, not when the service starts: importing it would add half of a bare
service's start time, and memory, for a table of some thirty constants. A test compares the file with pint.
"""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path
from typing import NamedTuple

FACTORS = Path(__file__).with_name("unit_factors.csv")


class UnitDefinition(NamedTuple):
    """A unit as requests write it, the base unit its values are turned into, and what pint calls the two."""

    dimension: str
    name: str
    base: str
    pint_unit: str
    pint_base: str


def _listed(dimension: str, base: str, pint_base: str, **units: str) -> tuple[UnitDefinition, ...]:
    return tuple(UnitDefinition(dimension, name, base, called, pint_base) for name, called in units.items())


#: Lengths keep the family of their unit (in or mm), so that inch figures stay exact decimals of an inch.
DEFINITIONS: tuple[UnitDefinition, ...] = (
    *_listed(
        "length",
        "in",
        "inch",
        **{
            "in": "inch",
            "inch": "inch",
            "inches": "inch",
            '"': "inch",
            "mil": "thou",
            "thou": "thou",
            "uin": "microinch",
            "microinch": "microinch",
        },
    ),
    *_listed("length", "mm", "mm", **{"mm": "mm", "um": "um", "µm": "um", "cm": "cm", "m": "m"}),
    *_listed("speed", "m/min", "m/min", **{"m/min": "m/min", "m/s": "m/s", "ft/min": "ft/min", "sfm": "ft/min"}),
    *_listed(
        "torque",
        "N*m",
        "N*m",
        **{
            "N*m": "N*m",
            "N*cm": "N*cm",
            "lbf*in": "lbf*inch",
            "in*lbf": "lbf*inch",
            "lbf*ft": "lbf*ft",
            "ft*lbf": "lbf*ft",
        },
    ),
    *_listed(
        "stress",
        "MPa",
        "MPa",
        **{"MPa": "MPa", "N/mm2": "N/mm**2", "GPa": "GPa", "psi": "lbf/inch**2", "ksi": "kip/inch**2"},
    ),
    *_listed("power", "kW", "kW", kW="kW", W="W", hp="hp"),
    *_listed("force", "N", "N", N="N", kN="kN", lbf="lbf"),
    *_listed("fraction", "1", "dimensionless", **{"%": "percent"}),
    *_listed("percent", "%", "percent", **{"%": "percent"}),
)


def factors_csv() -> str:
    """The table of factors as pint defines them, with exact decimals."""
    import pint  # only here: see the module's text

    registry: pint.UnitRegistry[Decimal] = pint.UnitRegistry(non_int_type=Decimal)
    lines = ["dimension,unit,base,factor"]
    for defined in DEFINITIONS:
        factor = registry.Quantity(Decimal(1), defined.pint_unit).to(defined.pint_base).magnitude
        unit = '""""' if defined.name == '"' else defined.name
        lines.append(f"{defined.dimension},{unit},{defined.base},{_plain(Decimal(factor))}")
    return "\n".join(lines) + "\n"


def _plain(factor: Decimal) -> str:
    """Fifteen significant digits: exact for a factor that is a short decimal, as good as a float for the rest."""
    text = format(Decimal(f"{factor:.15g}"), "f")
    return text.rstrip("0").rstrip(".") if "." in text else text
