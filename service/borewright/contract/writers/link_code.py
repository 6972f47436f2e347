"""A link as a QR code (ISO/IEC 18004), as SVG: for printed sheets."""

from __future__ import annotations

import io

MEDIA_TYPE = "image/svg+xml"
#: Letters of the longest link that a code of a hand's breadth still shows with modules that a phone can tell apart.
LONGEST_LINK = 1200
#: Light modules around the code that a reader wants (ISO/IEC 18004).
_QUIET = 4


def link_code(address: str) -> bytes:
    """The code of an address of at most ``LONGEST_LINK`` characters."""
    import segno  # who prints nothing does without

    made = io.BytesIO()
    segno.make_qr(address, error="m").save(made, kind="svg", border=_QUIET, light="#fff", omitsize=True, xmldecl=False)
    return made.getvalue()
