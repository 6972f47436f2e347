"""Section drawings of tapped holes, as SVG; as DXF, PDF and PNG where the printing extra is installed."""

from __future__ import annotations

from collections.abc import Mapping
from importlib.util import find_spec
from typing import Any

from borewright.core.plan.specification import Specification

from .printed import PDF, PNG, PrinterMissing, printed
from .printed import media_types as printed_types

MEDIA_TYPE = "image/svg+xml"
DXF = "image/vnd.dxf"

__all__ = [
    "DXF",
    "MEDIA_TYPE",
    "PDF",
    "PNG",
    "PrinterMissing",
    "media_types",
    "printed",
    "printed_types",
    "section_drawing",
    "section_dxf",
]


def media_types() -> tuple[str, ...]:
    """What this installation can make beside SVG."""
    return (*printed_types(), *((DXF,) if find_spec("ezdxf") else ()))


def section_drawing(spec: Specification, reply: Mapping[str, Any]) -> bytes:
    """The drawing; see :func:`sheet.section_drawing`."""
    from . import sheet  # loaded by the first drawing: the start does not need it

    return sheet.section_drawing(spec, reply)


def section_dxf(spec: Specification, reply: Mapping[str, Any]) -> bytes:
    """The drawing as DXF; see :func:`dxf.dxf`."""
    from . import dxf, sheet

    return dxf.dxf(sheet.made(spec, reply), reply["units"]["length"])
