"""Tolerances of Unified screw threads (ASME B1.1 sections 5 and 8), in inches.

The pitch-diameter tolerance of class 2A is the root of all others. Series whose length of engagement is counted in
pitches take it at an anchor diameter, one for a range of sizes, because the standard's tables do; series whose
length of engagement is the diameter take it at the size itself. The anchors are inferred from the printed limits.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise

from borewright.core.caches import cached, read_once
from borewright.core.requests import Edition
from borewright.core.rounding import half_even
from borewright.tables import load

#: Class tolerance of the pitch diameter as a multiple of that of class 2A (B1.1 section 5).
CLASS_FACTORS: Mapping[str, Decimal] = {
    "1A": Decimal("1.5"),
    "2A": Decimal("1.0"),
    "3A": Decimal("0.75"),
    "1B": Decimal("1.95"),
    "2B": Decimal("1.30"),
    "3B": Decimal("0.975"),
}

_BY_DIAMETER = frozenset({"UNC", "UNF", "4UN", "6UN", "8UN"})
#: 1-14 is listed as UNS but was the fine thread: its printed limits are those of a series engaged for one diameter.
_FORMER_FINE = (Decimal("1.0000"), Decimal(14))

_ANCHORS_IN: tuple[Decimal, ...] = (
    Decimal("0.19"),
    *(Decimal(eighths) / 8 for eighths in (2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 20, 24, 28, 32, 40, 48)),
)
_UP_TO_IN = tuple(((low + high) / 2, low) for low, high in pairwise(_ANCHORS_IN))

_TWO_THIRDS = Decimal(2) / 3
_THIRD = Decimal(1) / 3


@dataclass(frozen=True, slots=True)
class Form:
    """What the profile gives at one pitch, inches: pitch to 8 decimals, products to 6."""

    tpi: Decimal
    pitch_in: Decimal
    pitch_to_two_thirds: Decimal
    pitch_depth_in: Decimal
    minor_depth_in: Decimal
    unr_depth_in: Decimal
    j_depth_in: Decimal


@cached(512)
def form(tpi: Decimal) -> Form:
    """Profile of a pitch.

    Args: ``tpi`` threads per inch.
    Source: ASME B1.1 section 10.1; rounding of ASME B1.30-2002 (Machinery's Handbook 31st ed. Tables 3 to 6).
    """
    pitch = half_even(1 / tpi, 8)

    def depth(factor: str) -> Decimal:
        return half_even(Decimal(factor) * pitch, 6)

    return Form(
        tpi,
        pitch,
        pitch**_TWO_THIRDS,
        depth("0.64951905"),
        depth("1.08253175"),
        depth("1.19078493"),
        depth("0.97427858"),
    )


@dataclass(frozen=True, slots=True)
class Engagement:
    """How long a thread engages, for its tolerance: ``basis`` D or 9P, the factor on the pitch-diameter tolerance."""

    basis: str
    length_in: Decimal | None
    pitch_factor: Decimal
    limits: str


def basis_of(series: str, *, diameter_in: Decimal, tpi: Decimal, edition: Edition = "1989") -> str:
    """``D`` where the series counts its standard engagement in diameters, ``9P`` where it counts pitches, by
    ``diameter_in`` and ``tpi``.

    Source: ASME B1.1 section 5; confirmed on the whole table of external limits. The edition of 2019 prints 1-14 UNS
    as 9P.
    """
    former_fine = edition == "1989" and (diameter_in, tpi) == _FORMER_FINE
    return "D" if series in _BY_DIAMETER or former_fine else "9P"


def engagement_of(basis: str, length_in: Decimal | None, *, diameter_in: Decimal, pitch_in: Decimal) -> Engagement:
    """The factor on the pitch-diameter tolerance for ``length_in`` of engagement (None = the standard one) by
    ``basis``.

    Args: ``diameter_in`` and ``pitch_in`` that the basis counts.
    Source: ASME B1.1: 1 to 1.5 D or 15 P, 1.25 to 3 D or 30 P (FED-STD-H28/2B 5.4), 1.5 beyond (from memory).
    """
    if length_in is None:
        return Engagement(basis, None, Decimal(1), "standard length of engagement")
    unit, step = ("D", Decimal("1.5") * diameter_in) if basis == "D" else ("P", 15 * pitch_in)
    first, second = ("1.5 D", "3 D") if unit == "D" else ("15 P", "30 P")
    if length_in <= step:
        return Engagement(basis, length_in, Decimal(1), f"up to {first}")
    if length_in <= 2 * step:
        return Engagement(basis, length_in, Decimal("1.25"), f"over {first} to {second}")
    return Engagement(basis, length_in, Decimal("1.5"), f"over {second}")


def anchor_in(diameter_in: Decimal) -> Decimal:
    """Diameter in inches at which the tables take the tolerance of ``diameter_in`` in the 9P series: the lower anchor
    up to the middle.

    Below the first anchor and above the last the size itself is taken. Source: inferred from the limits of ASME B1.1.
    """
    if not _ANCHORS_IN[0] <= diameter_in <= _ANCHORS_IN[-1]:
        return diameter_in
    return next((anchor for middle, anchor in _UP_TO_IN if diameter_in <= middle), _ANCHORS_IN[-1])


@cached(1024)
def td2(*, diameter_in: Decimal, length_in: Decimal, tpi: Decimal) -> Decimal:
    """Pitch-diameter tolerance of class 2A in inches, to 6 decimals: 0.0015 D^(1/3) + 0.0015 LE^(1/2) + 0.015 P^(2/3).

    Args: ``diameter_in`` the size or its anchor; ``length_in`` engagement; ``tpi`` = 1/P.
    Source: ASME B1.1 section 5 (Table 34).
    """
    return half_even(
        Decimal("0.0015") * diameter_in**_THIRD
        + Decimal("0.0015") * length_in.sqrt()
        + Decimal("0.015") * form(tpi).pitch_to_two_thirds,
        6,
    )


def major_tolerance(profile: Form, *, factor: Decimal) -> Decimal:
    """Major-diameter tolerance in inches of an external thread of ``profile``, to 6 decimals: ``factor`` P^(2/3).
    Source: ASME B1.1 Table 31.
    """
    return half_even(factor * profile.pitch_to_two_thirds, 6)


@read_once
def _exceptions(quantity: str) -> Mapping[tuple[Decimal, Decimal, str], tuple[Decimal, str]]:
    rows = (row for row in load("unified_exceptions").rows if row["quantity"] == quantity)
    return {
        (Decimal(row["basic_major_in"]), Decimal(row["tpi"]), row["thread_class"]): (
            Decimal(row["printed_in"]),
            row["status"],
        )
        for row in rows
    }


def printed_allowance(thread_class: str, *, diameter_in: Decimal, tpi: Decimal) -> Decimal | None:
    """Allowance in inches of ``thread_class`` that the standard prints off its own formula, None where
    it follows it.

    Args: ``diameter_in`` and ``tpi`` of the row in unified_exceptions.
    """
    found = _exceptions("allowance").get((diameter_in, tpi, thread_class))
    return found[0] if found else None


def printed_tolerance(thread_class: str, *, diameter_in: Decimal, tpi: Decimal) -> Decimal | None:
    """External pitch tolerance in inches of ``thread_class`` that the standard prints off its formula, None else.

    Args: ``diameter_in`` and ``tpi`` of the row in unified_exceptions.
    """
    found = _exceptions("pitch_tolerance").get((diameter_in, tpi, thread_class))
    return found[0] if found else None


@dataclass(frozen=True, slots=True)
class MinorTolerance:
    """Tolerance of the internal minor diameter, unrounded inches, and the formula that gives it over P, D, ratio."""

    value_in: Decimal
    formula: str


_GENERAL = "0.05 * P ** (2 / 3) + 0.03 * P / D - 0.002"
_CAP = "0.394 * P"
_FINE_1B_2B = "0.25 * P - 0.4 * P ** 2"
_FINE_3B = "0.23 * P - 1.5 * P ** 2"
_COARSE_3B = "0.120 * P"


def minor_tolerance(
    thread_class: str, profile: Form, *, diameter_in: Decimal, ratio: Decimal = Decimal(1)
) -> MinorTolerance:
    """Tolerance in inches of the internal minor diameter before rounding, of ``profile`` at ``diameter_in``.

    Args: ``thread_class`` 1B, 2B or 3B; ``ratio`` by length of engagement (1 = the table value). The ratio multiplies
    the formula, the cap of 0.394 P is applied afterwards.
    Source: ASME B1.1-1989 section 5.8.2, Tables 39 and 40; confirmed by every row of FED-STD-H28/2B Tables II.A.3 and
    II.A.4 from 4 to 80 threads per inch; 0.15 P coarser than 4 threads per inch is from memory.
    """
    pitch = profile.pitch_in
    if thread_class != "3B" and diameter_in >= Decimal("0.25"):
        if profile.tpi < 4:
            return MinorTolerance(ratio * Decimal("0.15") * pitch, "ratio * 0.15 * P")
        return MinorTolerance(ratio * _fine(pitch, "0.25", "0.4"), f"ratio * ({_FINE_1B_2B})")
    general = Decimal("0.05") * profile.pitch_to_two_thirds + Decimal("0.03") * pitch / diameter_in - Decimal("0.002")
    if thread_class != "3B":
        floor, text = _fine(pitch, "0.25", "0.4"), _FINE_1B_2B
    elif profile.tpi >= 13:
        floor, text = _fine(pitch, "0.23", "1.5"), _FINE_3B
    else:
        floor, text = Decimal("0.120") * pitch, _COARSE_3B
    value = min(ratio * max(general, floor), Decimal("0.394") * pitch)
    return MinorTolerance(value, f"min(ratio * max({_GENERAL}, {text}), {_CAP})")


def _fine(pitch: Decimal, linear: str, square: str) -> Decimal:
    return Decimal(linear) * pitch - Decimal(square) * pitch * pitch


def minor_ratio(length_in: Decimal, *, diameter_in: Decimal) -> Decimal:
    """Share of the minor-diameter tolerance for ``length_in`` of engagement of a special thread of ``diameter_in``:
    0.5, 0.75 or 1.

    Beyond 1.5 D the standard limits stay; 1.25 times the tolerance needs a modified thread (MOD).
    Source: FED-STD-H28/2B 5.4 and 30.1.
    """
    if length_in <= Decimal("0.33") * diameter_in:
        return Decimal("0.5")
    return Decimal("0.75") if length_in <= Decimal("0.67") * diameter_in else Decimal(1)


@read_once
def _printed_unr() -> Mapping[Decimal, tuple[Decimal, Decimal]]:
    rows = load("unified_unr_depth").rows
    return {Decimal(row["tpi"]): (Decimal(row["depth_in"]), Decimal(row["depth_uns_in"])) for row in rows}


def printed_unr_depth(tpi: Decimal, series: str) -> Decimal | None:
    """Depth of the UNR reference minor diameter below the largest major in inches, as the limits table of ``series``
    prints it for ``tpi``.
    """
    found = _printed_unr().get(tpi)
    return None if found is None else found[1 if series == "UNS" else 0]
