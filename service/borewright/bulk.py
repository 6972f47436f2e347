"""Hole specifications and part plans over a Dask bag or DataFrame, partition by partition: what outgrows HTTP.

Needs the extra: ``pip install borewright[dask]``. Each record is answered on its own, as in a batch: one that cannot be
answered is a problem in its place and never spoils the rest. Order and partitions stay as they are.
"""

from __future__ import annotations

import logging
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

import orjson

from borewright.contract.faults import invalid
from borewright.contract.requests import HOLE_SPEC
from borewright.contract.texts import Unit, unit_asked
from borewright.core.errors import BorewrightError, Fault
from borewright.core.plan.specify import specify

from .contract import hole_id, problem, replies

if TYPE_CHECKING:
    import pandas as pd
    from dask.bag import Bag
    from dask.dataframe import DataFrame

Json = dict[str, Any]
_log = logging.getLogger("borewright")

#: Columns of the DataFrame of results: text all of them; ``spec`` and ``problem`` are JSON, or missing.
COLUMNS = ("id", "status", "spec", "problem")
_FAULT_OF_OURS = Fault(problem.INTERNAL_ERROR, "See the worker's log.")


def specify_bag(requests: Bag, *, defaults: Mapping[str, Any] | None = None) -> Bag:
    """Answer every hole-spec request (a dict) of a bag.

    Args: ``defaults`` are fields for every request that does not have them itself.

    Returns: a bag of results ``{"id", "status": "ok", "spec"}`` or ``{"id", "status": "error", "problem"}``.
    """
    answered: Bag = requests.map_partitions(_answer_all, dict(defaults or {}))  # type: ignore[no-untyped-call]
    return answered


def specify_frame(requests: DataFrame, *, defaults: Mapping[str, Any] | None = None) -> DataFrame:
    """Answer every row of a DataFrame.

    Args: ``requests`` has a column for each field of a request; a dotted name (``hole.full_thread_depth``) leads into
        an object, and an empty cell is a field left out. ``defaults`` as in :func:`specify_bag`.

    Returns: a DataFrame with the index of ``requests`` and the :data:`COLUMNS`.
    """
    meta = dict.fromkeys(COLUMNS, "object")
    answered: DataFrame = requests.map_partitions(  # type: ignore[no-untyped-call]
        _answer_frame, dict(defaults or {}), meta=meta
    )
    return answered


def plan_bag(parts: Bag, *, defaults: Mapping[str, Any] | None = None) -> Bag:
    """Plan every part of a bag: requests as POST /v1/part-plans takes them (dicts).

    Args: ``defaults`` are fields for every request that does not have them itself, such as ``detail`` or ``stock``.

    Returns: a bag of results ``{"part", "status": "ok", "plan"}`` or ``{"part", "status": "error", "problem"}``. A hole
    that cannot be planned is named in its plan; only a request that is wrong around its holes is an error.
    """
    planned: Bag = parts.map_partitions(_plan_all, dict(defaults or {}))  # type: ignore[no-untyped-call]
    return planned


def plan(request: object, defaults: Mapping[str, Any] | None = None) -> Json:
    """The plan of one part as :func:`plan_bag` gives it; never raises."""
    from borewright.contract.part_plans import part_plan_reply  # holes alone do without, and without the solver
    from borewright.contract.requests.part_plan import part_plan_asked
    from borewright.core.part import plan_part
    from borewright.solver.part import PartSolver

    name = request.get("part") if isinstance(request, dict) else None
    try:
        if not isinstance(request, dict):
            raise invalid("body_not_object", "Expected a request for a part plan as record.")
        asked = part_plan_asked({**(defaults or {}), **request})
        return {"part": name, "status": "ok", "plan": part_plan_reply(plan_part(asked.request, PartSolver()), asked)}
    except BorewrightError as error:
        return {"part": name, "status": "error", "problem": _problem(error.faults)}
    except Exception as error:  # a fault of ours in one part must not end a job of thousands
        _log.error("a part of a bulk job failed", exc_info=error)
        return {"part": name, "status": "error", "problem": _problem((_FAULT_OF_OURS,))}


def _plan_all(parts: Iterable[object], defaults: Mapping[str, Any]) -> list[Json]:
    return [plan(one, defaults) for one in parts]


def answer(request: object, defaults: Mapping[str, Any] | None = None) -> Json:
    """The result of one record, like that of a batch without its index; never raises."""
    name, unit = hole_id.of_item(request), None
    try:
        if not isinstance(request, dict):
            raise invalid("body_not_object", "Expected a hole-spec request as record.")
        body = {**(defaults or {}), **request}
        unit = unit_asked(body)
        asked = HOLE_SPEC.asked(body)
        return {"id": name, "status": "ok", "spec": replies.hole_spec_reply(specify(asked.request), asked)}
    except BorewrightError as error:
        return {"id": name, "status": "error", "problem": _problem(error.faults, unit)}
    except Exception as error:  # a fault of ours in one record must not end a job of millions
        _log.error("a record of a bulk job failed", exc_info=error)
        return {"id": name, "status": "error", "problem": _problem((_FAULT_OF_OURS,))}


def _answer_all(requests: Iterable[object], defaults: Mapping[str, Any]) -> list[Json]:
    return [answer(request, defaults) for request in requests]


def _answer_frame(frame: pd.DataFrame, defaults: Mapping[str, Any]) -> pd.DataFrame:
    import pandas as pd

    names = [str(name) for name in frame.columns]
    filled = frame.astype("object").where(frame.notna(), None)
    rows = [_cells(answer(_request(names, row), defaults)) for row in filled.itertuples(index=False, name=None)]
    return pd.DataFrame(rows, index=frame.index, columns=list(COLUMNS), dtype="object")


def _request(names: list[str], row: tuple[Any, ...]) -> Json:
    """The request of a row: dotted names lead into objects, empty cells are left out."""
    request: Json = {}
    for name, cell in zip(names, row, strict=True):
        if cell is None:
            continue
        *path, last = name.split(".")
        inside = request
        for step in path:
            inside = inside.setdefault(step, {})
        inside[last] = cell.item() if hasattr(cell, "item") else cell  # numpy's figure -> Python's
    return request


def _cells(result: Json) -> tuple[str | None, ...]:
    written = (orjson.dumps(result[key]).decode() if key in result else None for key in ("spec", "problem"))
    return (result["id"], result["status"], *written)


def _problem(found: tuple[Fault, ...], unit: Unit | None = None) -> Json:
    """The problem of a record; there is no HTTP request that ``instance`` and ``request_id`` could name."""
    first = found[0]
    return problem.document(first.code, problem.KINDS[first.code], first.detail, found, unit=unit)
