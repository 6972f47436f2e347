"""The figures of a shop: its measurements fitted against what the tables assume."""

from __future__ import annotations

from flask import Blueprint, Response

from borewright.api.answers import computed

blueprint = Blueprint("shop_figures", __name__, url_prefix="/v1/shop-figures")


@blueprint.post("/fit")
def fit() -> Response:
    """The shop's own figures from what it measured; nothing is stored."""
    from borewright.api.measurement_lists import read_measurements, time_of_fit  # the first hole does without
    from borewright.contract.requests.shop_figures_fit import FIT
    from borewright.contract.shop_figures_reply import fit_pieces
    from borewright.core.shop_figures.fitted import fit_measurements
    from borewright.core.shop_figures.typical_decisions import changed
    from borewright.quantiles.special import QUANTILES

    time = time_of_fit()
    asked = FIT.asked(read_measurements(time))
    result = fit_measurements(asked.request, QUANTILES, time)
    return computed(fit_pieces(result, changed(result), asked))
