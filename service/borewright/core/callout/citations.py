"""Standards that a callout cites beside the thread (``per ASME B18.29.1``, ``ISO 7-1``): which systems they define."""

from __future__ import annotations

import re

from borewright.core.errors import CalloutError
from borewright.core.model import ThreadCallout

from .text import cut
from .thread_as_written import Written

_UNIFIED = frozenset({"unified", "unified_j", "insert_unified"})
_METRIC = frozenset({"iso_metric", "metric_j", "insert_metric"})
_STRAIGHT_DRYSEAL = frozenset({"nptf", "npsf", "npsi"})

#: Document as it stands in a callout, without organisation and year -> systems it defines.
_DOCUMENTS: dict[str, frozenset[str]] = {
    "B1.1": _UNIFIED,
    "B1.5": frozenset({"acme"}),
    "B1.8": frozenset({"stub_acme"}),
    "B1.10": frozenset({"unified_miniature"}),
    "B1.13M": _METRIC,
    "B1.15": frozenset({"unified_j"}),
    "B1.20.1": frozenset({"npt", "npsm", "npsc"}),
    "B1.20.3": _STRAIGHT_DRYSEAL,
    "B1.21M": frozenset({"metric_j"}),
    "B18.29.1": frozenset({"insert_unified"}),
    "B18.29.2M": frozenset({"insert_metric"}),
    "NASM33537": frozenset({"insert_unified"}),
    "MS33537": frozenset({"insert_unified"}),
    "MA1567": frozenset({"insert_metric"}),
    "AS8879": frozenset({"unified_j"}),
    "MILS8879": frozenset({"unified_j"}),
    "MILS7742": frozenset({"unified"}),
    "FEDSTDH28": _UNIFIED | {"npt", "npsm", "npsc", "acme", "stub_acme"} | _STRAIGHT_DRYSEAL,
    "AS71051": frozenset({"npt"}),
    "J476": _STRAIGHT_DRYSEAL,
    "ISO7": frozenset({"iso_7"}),
    "ISO68": _METRIC,
    "ISO228": frozenset({"iso_228"}),
    "ISO261": _METRIC,
    "ISO262": _METRIC,
    "ISO724": _METRIC,
    "ISO965": _METRIC,
    "ISO2901": frozenset({"trapezoidal"}),
    "ISO2902": frozenset({"trapezoidal"}),
    "ISO2903": frozenset({"trapezoidal"}),
    "ISO2904": frozenset({"trapezoidal"}),
    "ISO5855": frozenset({"metric_j"}),
    "DIN13": _METRIC,
    "DIN103": frozenset({"trapezoidal"}),
    "DIN8140": frozenset({"insert_metric"}),
    "BS84": frozenset({"whitworth"}),
    "BS93": frozenset({"british_association"}),
    "BS21": frozenset({"iso_7"}),
    "EN10226": frozenset({"iso_7"}),
}
_CITED = re.compile(
    r"(?<![A-Z0-9])(?:PER |TO |IAW |IN ACCORDANCE WITH )?(?:(?:ASME|ANSI|SAE)[ /]?){0,2}"
    r"(B1\.[0-9]{1,2}(?:\.[13])?M?|B18\.29\.[12]M?|(?:ISO|DIN|BS|EN) ?[0-9]{1,5}|NASM ?33537|MS ?33537|MA ?1567"
    r"|AS ?8879|AS ?71051|J ?476|MIL-S-8879|MIL-S-7742|FED-STD-H28)"
    r"(?:/[0-9]{1,2}[A-Z]?)?(?:-[0-9]{1,2}(?![0-9.,]))?(?:[-:][12][0-9]{3}[A-Z]?)?(?![A-Z0-9])"
)
#: Letter runs that may belong to a citation.
CITING = frozenset({"ASME", "ANSI", "SAE", "ISO", "DIN", "BS", "EN", "NASM", "MS", "MA", "AS", "MIL", "FED"})


def take_citations(text: str, written: Written) -> str:
    """Move the standards that ``text`` cites into ``written.cited``; returns the text without them."""
    while (found := _CITED.search(text.upper())) is not None:
        key = found[1].replace(" ", "").replace("-", "")
        if key not in _DOCUMENTS:
            break
        written.cited.append((found[1], _DOCUMENTS[key]))
        text = cut(text, *found.span())
    return text


def check(callout: ThreadCallout, written: Written) -> ThreadCallout:
    """``callout`` as it is, refused where ``written`` cites another system's standard (a UNC thread to ISO 228-1).

    Raises:
        CalloutError: ``thread_series_mismatch``.
    """
    for document, systems in written.cited:
        if callout.system not in systems:
            raise CalloutError(
                "thread_series_mismatch",
                f"The callout cites {document}, which defines {', '.join(sorted(systems))}, not {callout.system}.",
                pointer="/series",
            )
    return callout
