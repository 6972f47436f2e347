"""Section drawings of tapped holes, as SVG; as PDF and PNG where the printing extra is installed."""

from .printed import PDF, PNG, PrinterMissing, media_types, printed
from .sheet import MEDIA_TYPE, section_drawing

__all__ = ["MEDIA_TYPE", "PDF", "PNG", "PrinterMissing", "media_types", "printed", "section_drawing"]
