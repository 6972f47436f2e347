"""The endpoint for a shop's own figures, as the OpenAPI document describes it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import orjson

from borewright.contract.requests.shop_figures_fit import FIT, FitQuery, FitRequestBody
from borewright.contract.sections.shop_figures import ShopFiguresReply
from borewright.contract.shop_figures_reply import fit_reply
from borewright.contract.writers import workbook
from borewright.core.shop_figures.fitted import fit_measurements
from borewright.core.shop_figures.typical_decisions import changed
from borewright.quantiles.special import QUANTILES

from .endpoints import Endpoint

#: Ten holes that Kestrel Ridge Pumps drilled and measured.
MEASURED: Mapping[str, dict[str, Any]] = {
    "drilled_holes": {
        "unit_system": "inch",
        "selection": "all",
        "measurements": [
            {
                "kind": "drilled_hole",
                "drill": "5/16",
                "material": "4140",
                "machine": "VMC 2",
                "date": "2026-11-20",
                "measured": [0.3153, 0.3154, 0.3147, 0.3143, 0.3142, 0.3147, 0.3142, 0.314, 0.3148, 0.3148],
            }
        ],
    }
}


def _fit() -> Mapping[str, Any]:
    asked = FIT.asked(MEASURED["drilled_holes"])
    result = fit_measurements(asked.request, QUANTILES)
    return fit_reply(result, changed(result), asked)


SHOP: tuple[Endpoint, ...] = (
    Endpoint(
        "post",
        "/v1/shop-figures/fit",
        "fitShopFigures",
        "shop figures",
        "Fit what the shop measured against what the tables assume",
        "Drilled holes, tapped threads, coats, torques, taps used and counts of GO and NOT GO, in any order. Few pieces"
        " lean on the published figure, many stand alone: each figure says how much of each, where it lies, what lies"
        " outside, how many more pieces halve its interval and which of twenty typical decisions would now differ."
        " `shop_figures` of the reply goes with every later request; the call only computes: nothing"
        " is stored. Also as `application/x-ndjson`, and as a sheet, `text/csv` or a workbook (.xlsx) with its first"
        " sheet: field names in the head in any case and with their units (`Measured (in)`), a piece a row, several"
        " values in a cell parted by semicolons. The query says what rows cannot.",
        ShopFiguresReply,
        _fit,
        query=FitQuery,
        request=FitRequestBody,
        request_examples=MEASURED,
        other_requests={
            "application/x-ndjson": orjson.dumps(MEASURED["drilled_holes"]["measurements"][0]).decode() + "\n",
            "text/csv": "kind,drill,material,measured\r\ndrilled_hole,5/16,4140,0.3153 in; 0.3147 in\r\n",
        },
        binary_requests=(workbook.MEDIA_TYPE,),
    ),
)
