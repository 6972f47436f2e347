"""Section drawings of tapped holes, as SVG."""

from .sheet import MEDIA_TYPE, section_drawing

__all__ = ["MEDIA_TYPE", "section_drawing"]
