"""From the text of a planned drill to its size, of a planned tap to its thread, limit, style and chamfer."""

from __future__ import annotations

from dataclasses import replace

from borewright.core.drilling import find_drill
from borewright.core.errors import BorewrightError
from borewright.core.model import Drill, TapChamfer, Thread
from borewright.core.tapping import limits
from borewright.core.tapping.marking import decode
from borewright.core.tapping.tap_build import chamfer
from borewright.core.tapping.tap_candidates import Candidate

from .case import ReadTap
from .findings import Finding, PlannedTap

_FORMING_CHAMFERS = {"plug": "forming_plug", "bottoming": "forming_bottoming"}


def read_drill(thread: Thread, label: str, best: Drill, refused: list[Finding]) -> Drill | None:
    """A planned drill; None, with a finding in ``refused``, where its label names no drill or more than one.

    Args: ``best`` is the drill of the specification: its label is taken for it, were it ambiguous elsewhere (``2``);
        ``thread`` whose unit a bare figure has.
    Source: labels as :func:`borewright.core.drilling.find_drill` reads them.
    """
    if label == best.label:
        return best
    try:
        return find_drill(label, thread.unit)
    except BorewrightError as error:
        refused.append(Finding("drill_unknown", "error", "drill", str(error), label, best.label))
        return None


def read_tap(thread: Thread, tap: PlannedTap, field: str, refused: list[Finding]) -> ReadTap | None:
    """A planned tap as read; None, with a finding in ``refused``, where it cannot be.

    Args: ``field`` of the plan that holds it; ``thread`` that it is to cut.
    Source: marks as :func:`borewright.core.tapping.marking.decode` reads them.
    """
    tap = _limit_alone(tap)
    text = " ".join(part for part in (tap.marking, tap.limit, tap.style, tap.chamfer) if part)
    try:
        marking = None if tap.marking is None else decode(tap.marking)
    except BorewrightError as error:
        refused.append(Finding("tap_unreadable", "error", field, str(error), text, thread.designation))
        return None
    candidate = None if marking is None else marking.candidate
    if tap.limit is not None:
        candidate = _labelled(marking.thread if marking is not None else thread, tap.limit)
        if candidate is None:
            why = f"no limit {tap.limit!r} is held for taps of {thread.designation}"
            refused.append(Finding("tap_unreadable", "error", field, why, text, thread.designation))
            return None
    style = tap.style or (None if marking is None else marking.style)
    return ReadTap(text, field, marking, candidate, style, _chamfer(tap, style, marking.chamfer if marking else None))


def _limit_alone(tap: PlannedTap) -> PlannedTap:
    """A text that is a limit and nothing else (``H3``) names the limit of a tap whose thread is taken as right."""
    if tap.marking is None or tap.limit is not None or limits.normal_label(tap.marking) is None:
        return tap
    return replace(tap, marking=None, limit=tap.marking)


def _labelled(thread: Thread, limit: str) -> Candidate | None:
    label = limits.normal_label(limit)
    return None if label is None else limits.labelled(thread, label)


def _chamfer(tap: PlannedTap, style: str | None, etched: TapChamfer | None) -> TapChamfer | None:
    if tap.chamfer is None:
        return etched
    key = _FORMING_CHAMFERS.get(tap.chamfer, tap.chamfer) if style == "forming" else tap.chamfer
    return chamfer(key).chamfer
