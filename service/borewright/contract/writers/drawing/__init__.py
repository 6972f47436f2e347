"""Section drawings of tapped holes, as SVG; as PDF and PNG where the printing extra is installed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from borewright.core.plan.specification import Specification

from .printed import PDF, PNG, PrinterMissing, media_types, printed

MEDIA_TYPE = "image/svg+xml"

__all__ = ["MEDIA_TYPE", "PDF", "PNG", "PrinterMissing", "media_types", "printed", "section_drawing"]


def section_drawing(spec: Specification, reply: Mapping[str, Any]) -> bytes:
    """The drawing; see :func:`sheet.section_drawing`."""
    from . import sheet  # loaded by the first drawing: the start does not need it

    return sheet.section_drawing(spec, reply)
