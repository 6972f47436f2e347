"""The sheet that lies at the machine: one page with card, section at true scale, limits, gauges and operations."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from borewright.core.plan.specification import Specification

__all__ = ["machine_sheet"]


def machine_sheet(spec: Specification, reply: Mapping[str, Any], *, paper: str, link: str | None) -> bytes:
    """The sheet as SVG; see :func:`sheet.machine_sheet`."""
    from . import sheet  # loaded by the first sheet: the start does not need it

    return sheet.machine_sheet(spec, reply, paper=paper, link=link)
