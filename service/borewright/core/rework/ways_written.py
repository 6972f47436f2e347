"""How a way of rework is written down: its disposition with who decides, its operations in shop order."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from borewright.core.caches import read_once
from borewright.core.citation import Cite
from borewright.core.model import Caution, Source
from borewright.core.plan.operation import Line, Operation
from borewright.core.plan.routing import SEQUENCE_STEP
from borewright.core.plan.specification import Specification
from borewright.tables import load

from .proof import Proof
from .rework_case import ReworkCase
from .rework_way import Disposition, Replanned, ReworkWay

#: What makes a hole in solid metal: of a hole that is there nothing is spotted or piloted.
_IN_SOLID = frozenset({"spot_drill", "pilot_drill"})
#: What makes the hole ahead of the thread.
_BEFORE_THREAD = _IN_SOLID | {"drill", "redrill", "ream", "bore", "countersink"}
_THREADING = frozenset({"tap", "thread_mill", "single_point_thread"})
_PROCESS = "process engineering and the safety officer of the site"
_LEAVE = "in writing, by whoever answers for the design and the code that the part falls under"


class Authority(NamedTuple):
    """Who decides, and where that stands."""

    conforms: bool
    who: str
    source: Source


@read_once
def authority(disposition: Disposition) -> Authority:
    """Who decides a ``disposition``, and whether the part meets the drawing afterwards.

    Source: MIL-STD-1520C, as the table says.
    """
    table = load("rework_dispositions")
    row = next(row for row in table.rows if row["disposition"] == disposition)
    place = Cite(row["document"], "", f"clause {row['locator']}", "from_memory")
    return Authority(row["conforms_afterwards"] == "yes", row["authority"], place.source("disposition"))


def way(
    case: ReworkCase,
    name: str,
    disposition: Disposition,
    text: str,
    *,
    proof: Proof,
    plan: Replanned | None = None,
    lines: Iterable[Line] = (),
    cautions: Iterable[Caution] = (),
    regrade: bool = False,
    needs_leave: bool = False,
) -> ReworkWay:
    """The way ``name`` of ``case``, said in ``text``.

    Args: ``disposition`` proposed; ``proof`` with its figures; ``plan`` where the hole becomes another one; ``lines``
        of its routing; ``cautions`` of its own; ``regrade`` where the part is accepted to other requirements;
        ``needs_leave`` where the work itself needs it.
    Source: as :func:`authority`.
    """
    decides = authority(disposition)
    critical = case.criticality is not None
    leave = (
        f"; {case.criticality} hardware: {_LEAVE}" if critical else f"; the process: {_PROCESS}" if needs_leave else ""
    )
    return ReworkWay(
        name=name,
        disposition=disposition,
        text=text,
        conforms=decides.conforms,
        needs_authority=critical or needs_leave or disposition != "rework",
        authority=decides.who + leave,
        proof=proof.figures,
        plan=plan,
        thread=_other(case, plan),
        operations=tuple(Operation(place * SEQUENCE_STEP, line) for place, line in enumerate(lines, start=1)),
        cautions=tuple(dict.fromkeys(cautions)),
        notes=proof.finished(decides.source),
        regrade=regrade,
    )


def _other(case: ReworkCase, plan: Replanned | None) -> str | None:
    """Designation of the thread of a plan where it is another one than that of the drawing."""
    found = None if plan is None else plan.specification.thread.designation
    return None if found == case.thread.designation else found


def cut_anew(specification: Specification) -> list[Line]:
    """The lines of ``specification`` for a hole that is there already: out of the old hole, then as any other.

    Source: as the operations of the specification.
    """
    return [one.line for one in specification.operations if one.line.operation not in _IN_SOLID]


def from_the_thread_on(specification: Specification) -> list[Line]:
    """The lines of ``specification`` from its threading on: the hole stays as it is.

    Source: as the operations of the specification.
    """
    lines = [one.line for one in specification.operations]
    start = next(place for place, line in enumerate(lines) if line.operation in _THREADING)
    return [line for line in lines[start:] if line.operation not in _BEFORE_THREAD]


def after_the_thread(specification: Specification) -> list[Line]:
    """The lines of ``specification`` after its threading: inspection, finish and what belongs to it.

    Source: as the operations of the specification.
    """
    return [line for line in from_the_thread_on(specification) if line.operation not in _THREADING]


def work(operation: str, tool: str, text: str, **parameters: object) -> Line:
    """A line of rework that no specification has: what is done, an ``operation`` with a ``tool``, said in ``text``.

    Args: ``parameters`` of it; a Decimal is a length in the unit of the drawn thread.
    """
    given: Mapping[str, object] = parameters
    return Line(operation, {"kind": tool}, given, text)
