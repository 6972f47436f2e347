"""Cutting data of a hole as they come whole, and the torque of its tap by the chip section, written once more.

M8 has a pitch of 1.25 mm. 1045 of 198 HB is C45 at its reference strength: kc1.1 2220 N/mm2, mc 0.14.
"""

from __future__ import annotations

from decimal import Decimal
from math import pi, tan

import pytest
from borewright.core import callout, standards
from borewright.core.cutting import cutting_data
from borewright.core.cutting.records import CuttingRequest
from borewright.core.materials import part_material
from borewright.core.model import MaterialInput

M8 = standards.resolve(callout.read("M8"))
STEEL = part_material.find(MaterialInput("1045 198 HB"))
HOLE = CuttingRequest(
    material=STEEL, hole_kind="through", drill_diameter=Decimal("6.8"), hole_diameter=Decimal("6.9"),
    drill_depth=Decimal(20), full_thread_depth=Decimal(12), tap_travel=Decimal(18), style="spiral_point",
    chamfer_name="plug", chamfer_threads=Decimal(4),
)  # fmt: skip


def of(thread=M8, **changes):
    return cutting_data.recommend(thread, HOLE._replace(**changes))


def about(value):
    return pytest.approx(value, rel=1e-9)


def tap_torque(*, hole_mm, kc1, mc, chamfer, flutes, factor):
    """h, section h (a + h tan 30), arm of its centroid, chip h / (c z): F kc A r in N m.

    The flat a is P/2 less the flanks from the printed pitch diameter 7.188 mm up: P/8 but for its rounding.
    """
    h, t = (8 - hole_mm) / 2, tan(pi / 6)
    a = 1.25 / 2 - t * (8 - 7.188)
    area = h * (a + t * h)
    arm = 4 - h / 3 * (3 * a + 4 * t * h) / (2 * a + 2 * t * h)
    return factor * kc1 * (h / (chamfer * flutes)) ** -mc * area * arm / 1000


def said(data):
    return [*data.notes.assumptions], {one.code: one.text for one in data.notes.cautions}


def plain(text):
    return text.replace("\N{NO-BREAK SPACE}", " ")
