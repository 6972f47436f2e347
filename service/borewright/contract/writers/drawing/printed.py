"""Section drawings as PDF and PNG, by CairoSVG where it is installed (`pip install borewright[print]`)."""

from __future__ import annotations

from importlib.util import find_spec
from typing import Any

from borewright.core.caches import read_once

PDF, PNG = "application/pdf", "image/png"
#: Pixels of a PNG a pixel of the 96 an inch that SVG counts.
PNG_SCALE = 2
#: A drawing holds no clock, so that the same request gives the same bytes; PDF readers want some date.
_NO_DATE = "1970-01-01T00:00:00Z"


class PrinterMissing(Exception):
    """CairoSVG is installed, but not the Cairo library that it draws with."""


def media_types() -> tuple[str, ...]:
    """What this installation can make beside SVG."""
    return (PDF, PNG) if find_spec("cairosvg") else ()


def printed(svg: bytes, media_type: str, title: str) -> bytes:
    """A section drawing as PDF, to scale, with its words as text, or as PNG.

    Raises:
        PrinterMissing: the Cairo library cannot be loaded.
    """
    try:
        made = _surfaces()[media_type]
    except OSError as fault:
        raise PrinterMissing from fault
    if media_type == PNG:
        return bytes(made.convert(bytestring=svg, scale=PNG_SCALE))
    titled: Any = type("Titled", (made,), {"title": title})
    return bytes(titled.convert(bytestring=svg))


@read_once
def _surfaces() -> dict[str, Any]:
    import cairocffi  # both need the Cairo library, which a machine without printing may lack
    from cairosvg.surface import PDFSurface, PNGSurface

    class Sheet(PDFSurface):  # type: ignore[misc]  # CairoSVG has no types
        """A PDF with a title and without the time at which it was made."""

        title = ""

        def _create_surface(self, width: float, height: float) -> Any:
            made = super()._create_surface(width, height)
            made[0].set_metadata(cairocffi.PDF_METADATA_TITLE, self.title)
            made[0].set_metadata(cairocffi.PDF_METADATA_CREATE_DATE, _NO_DATE)
            return made

    return {PDF: Sheet, PNG: PNGSurface}
