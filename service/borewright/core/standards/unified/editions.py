"""The editions of ASME B1.1 that are held, where they part, and which one an answer follows.

1989: the tables printed in 1982 and 1989. 2019: the rules as seen in eleven printed rows of that edition (9 pitches of
engagement for every UNS thread, decimals of ASME B1.30, ties up). For the series of 9 pitches it was not seen whether
the tables of 2019 still take one tolerance for a range of diameters, as those of 1989 do: where that moves a limit, the
data do not allow the newer edition and the older one is the default.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from borewright.core.model import Caution, Diameters, Length, Standard
from borewright.core.requests import Edition

from . import case as unified_case
from . import limits as unified_limits
from .case import Named
from .limits import Case
from .tolerance import anchor_in, td2

OTHER: dict[Edition, Edition] = {"2019": "1989", "1989": "2019"}
DOCUMENT = "ASME B1.1"

_NOT_CONFIRMED = Caution(
    "edition_not_confirmed",
    "These limits follow the formulas of ASME B1.1-2019 at the thread's own diameter; its table of this size was not"
    " seen and may keep the older tolerance, 0.0001 or 0.0002 away: check with the printed table.",
)
_TAKEN: dict[Edition, str] = {
    "2019": "edition not stated: ASME B1.1-2019 taken; the limits of the 1982/1989 tables differ and stand beside",
    "1989": "edition not stated: limits of the 1982/1989 tables of ASME B1.1 taken, because the table of 2019 was not"
    " seen for this size; what the formulas of 2019 give stands beside",
}


@dataclass(frozen=True, slots=True)
class EditionLimits:
    """Limits of a thread and of its mate."""

    internal: Diameters
    external: Diameters


@dataclass(frozen=True, slots=True)
class ChosenEdition:
    """The edition an answer follows: its case, and the limits of the other edition where they differ (else None)."""

    edition: Edition
    case: Case
    other: EditionLimits | None
    assumptions: tuple[str, ...]
    cautions: tuple[Caution, ...]


def choose(
    named: Named, engagement: Length | None, wanted: Edition | None, *, thread_class: str, mating_class: str
) -> ChosenEdition:
    """The edition of the thread ``named``: the one wanted, else the newest that the data allow.

    Args: ``engagement`` in inches; ``thread_class`` and ``mating_class``.
    Raises: ThreadError ``engagement_out_of_range``. Source: as the module says.
    """
    old, new = (unified_case.case(named, engagement, edition) for edition in ("1989", "2019"))
    printed, ruled = (_limits(case, thread_class, mating_class) for case in (old, new))
    differ = printed != ruled
    allowed = not differ or not named.tabulated or _limits(_at_anchor(new), thread_class, mating_class) == ruled
    edition: Edition = wanted or ("2019" if allowed else "1989")
    return ChosenEdition(
        edition,
        new if edition == "2019" else old,
        (printed if edition == "2019" else ruled) if differ else None,
        (_TAKEN[edition],) if differ and wanted is None and named.tabulated else (),
        (_NOT_CONFIRMED,) if edition == "2019" and not allowed else (),
    )


def _limits(case: Case, thread_class: str, mating_class: str) -> EditionLimits:
    known = unified_limits.basic(case, [])
    return EditionLimits(
        unified_limits.internal(case, thread_class, known, []), unified_limits.external(case, mating_class, [])
    )


def _at_anchor(case: Case) -> Case:
    """The case with the tolerance of the diameter that the older tables took it at."""
    if case.engagement.basis == "D":
        return case
    at = anchor_in(case.diameter_in)
    return replace(
        case,
        tolerance_diameter_in=at,
        td2_in=td2(diameter_in=at, length_in=case.tolerance_length_in, tpi=case.profile.tpi),
    )


def standard(chosen: ChosenEdition) -> Standard:
    """The document and edition ``chosen``, as a reply names them. Source: definition."""
    if chosen.edition == "1989":
        tables = chosen.case.rule == "table"
        return _PRINTED if tables else _FORMULAS_1989
    return _RULED if chosen.other is not None else _AGREED


_PRINTED = Standard(DOCUMENT, "1989 (values of the 1982/1989 tables, as adopted by FED-STD-H28/2B, 1991)")
_FORMULAS_1989 = Standard(DOCUMENT, "1989 (by formula, decimals after ASME B1.30-2002)")
_RULED = Standard(DOCUMENT, "2019 (by formula, decimals after ASME B1.30)")
_AGREED = Standard(DOCUMENT, "2019 (same limits as the edition of 1989)")
