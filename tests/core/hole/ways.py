"""Ways of tools, put together by hand: M10x1.5, a blind hole of 8.5 mm, 20 mm of full thread, tip 28 mm, tap 24 mm."""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout, standards
from borewright.core.drilling import find_drill
from borewright.core.hole.tool_reach import ReachWay


def thread(text: str):
    return standards.resolve(callout.read(text))


def plain_blanks(texts) -> str:
    """Texts as one, with ordinary blanks."""
    return " ".join([texts] if isinstance(texts, str) else texts).replace("\N{NO-BREAK SPACE}", " ")


def way_of(text: str = "M10", drill: str = "8.5 mm", *, blind=True, tapped=True, clearance=None, **lengths) -> ReachWay:
    """The way of the tools of a hole; lengths are texts, in the thread's unit."""
    found, tool = thread(text), find_drill(drill)
    usual = {"access": "0", "tip_depth": "28", "tap_travel": "24", "full_thread": "20", "floor": "0", **lengths}
    width = usual.pop("floor_width", None)
    return ReachWay(
        thread=found,
        blind=blind,
        clearance=None if clearance is None else Decimal(clearance),
        drill=tool,
        drill_diameter=tool.diameter(found.unit),
        tapped=tapped,
        floor_width=None if width is None else Decimal(width),
        **{name: Decimal(value) for name, value in usual.items()},
    )
