"""Where the figures of a Unified thread come from, with the status the thread's own table cell has."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.caches import read_once
from borewright.core.citation import cite
from borewright.core.model import Source, Status

from .case import Named
from .editions import DOCUMENT, ChosenEdition

TABLES_EDITION = cite("unified_exceptions").edition
_SAME = Source("standard", DOCUMENT, "2019", "formulas and ASME B1.30 give the limits of the older tables", "computed")


def sources(named: Named, chosen: ChosenEdition) -> tuple[Source, ...]:
    """Sources of the thread ``named`` in the edition ``chosen``; limits are worked out, but for minor diameters that a
    table seen prints.

    Source: tables/unified_series, tables/unified_selected_uns.
    """
    follows = chosen.edition if chosen.edition == "1989" or chosen.other is not None else "both"
    rule = "table" if named.tabulated and follows == "both" else chosen.case.rule
    return _make(named.status, rule, chosen.case.engagement.pitch_factor, named.tpi < 4, follows)


@read_once
def _make(series: Status, rule: str, factor: Decimal, coarse: bool, follows: str) -> tuple[Source, ...]:
    printed: Status = "published" if series == "published" and rule == "table" and follows != "2019" else "computed"
    pitch: Status = "from_memory" if factor == Decimal("1.5") else "computed"
    edition = "2019" if follows == "2019" else TABLES_EDITION
    minor_place = (
        "limits tables; FED-STD-H28/2B (1991) Tables II.A.3 and II.A.4"
        if rule == "table"
        else "section 5.8.2 formulas, decimals of ASME B1.30-2002 3.1.3"
    )
    factor_place = {
        Decimal(1): "section 5, limits tables" if follows != "2019" else "section 5 formulas",
        Decimal("1.25"): "section 5; FED-STD-H28/2B (1991) 5.4 for 1.25 times the tolerance",
        Decimal("1.5"): "section 5; 1.5 times the tolerance beyond 3 D or 30 P",
    }[factor]
    return (
        Source("series", DOCUMENT, TABLES_EDITION, "standard series and selected special threads", series),
        Source("basic", DOCUMENT, TABLES_EDITION, "section 10.1", "computed"),
        Source("internal.major_diameter", DOCUMENT, edition, "section 8", "computed"),
        Source("internal.pitch_diameter", DOCUMENT, edition, factor_place, pitch),
        Source("internal.minor_diameter", DOCUMENT, edition, minor_place, "from_memory" if coarse else printed),
        Source("external", DOCUMENT, edition, factor_place, pitch),
        Source(
            "external_reference",
            DOCUMENT,
            edition,
            "limits tables; Machinery's Handbook 31st ed. Tables 3 to 6",
            "computed",
        ),
        Source("tensile_stress_area", "FED-STD-H28/2B", "1991", "Table II.B.1 formula (1)", "second_hand"),
        *([_SAME] if follows == "both" else []),
    )
