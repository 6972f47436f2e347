"""What a step of a routing holds of tapped holes: the work at each hole, and its times for one part."""

from __future__ import annotations

from trytond.model import fields
from trytond.pool import PoolMeta


class Step(metaclass=PoolMeta):
    """A step of a routing."""

    __name__ = "production.routing.step"
    work = fields.Text("Work", help="What is done at each hole, with depths, speeds and feeds.")
    tool_change = fields.TimeDelta("Tool Change", help="From chip to chip, for one part.")
    run_time = fields.TimeDelta("Run Time", help="Cutting and going from hole to hole, for one part.")
