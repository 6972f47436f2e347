"""Part plans: all tapped holes of a part with the fewest tools."""

from __future__ import annotations

from flask import Blueprint, Response

from borewright.api.answers import computed
from borewright.api.batch import bounds
from borewright.api.request_body import read_request
from borewright.contract.requests.queries import DetailQuery

blueprint = Blueprint("part_plans", __name__, url_prefix="/v1/part-plans")

_QUERY = DetailQuery()


@blueprint.post("")
def create() -> Response:
    """One plan for all tapped holes of a part; nothing is stored."""
    from borewright.contract.part_plans import part_plan_pieces  # the first hole does without
    from borewright.contract.requests.part_plan import MOST_HOLES, part_plan_asked
    from borewright.core.part import plan_part
    from borewright.solver.part import solved

    asked = part_plan_asked(read_request(_QUERY, bounds.values_of(MOST_HOLES)))
    return computed(part_plan_pieces(plan_part(asked.request, solved), asked))
