"""Strength, gauges, cutting data and chance over the catalogue of every thread system: an answer or a coded refusal."""

from decimal import Decimal

from borewright.core import callout, standards
from borewright.core.chance.acceptance import AcceptanceRequest, chance
from borewright.core.cutting import cutting_data
from borewright.core.cutting.records import CuttingRequest
from borewright.core.gauging import gauges
from borewright.core.joint.strength import applies, assess
from borewright.core.materials import part_material
from borewright.core.model import MaterialInput
from borewright.core.requests import MatingScrew
from every import every

STEEL = part_material.find(MaterialInput("4140 at 28 HRC"))


def _sample():
    by_system = {}
    for entry in standards.catalogue():
        by_system.setdefault(entry.system, []).append(entry.designation)
    return [text for texts in by_system.values() for text in texts[:: max(len(texts) // 12, 1)]]


@every("text", _sample())
def test_answers_for_every_system(text):
    thread = standards.resolve(callout.read(text))
    minor, length = thread.basic.minor_diameter, thread.nominal_diameter * Decimal("1.25")
    found = assess(thread, engagement=length, hole_minor_max=None, screw=MatingScrew(), part=STEEL)
    assert found is None or (applies(thread) and found.internal_strip_force_n > 0)
    gauging = gauges(thread)
    assert gauging.acceptance
    by_taper_plug = thread.taper is not None or thread.series in ("NPSC", "NPSF", "NPSI", "Rp")
    assert (gauging.finished.thread_plug is None) == (
        by_taper_plug or None in (thread.internal.pitch_diameter.min, thread.internal.pitch_diameter.max)
    )
    data = cutting_data.recommend(
        thread,
        CuttingRequest(
            material=STEEL,
            hole_kind="through",
            drill_diameter=minor,
            hole_diameter=minor,
            drill_depth=length,
            full_thread_depth=length,
            tap_travel=length,
        ),
    )
    assert data.drill.spindle_speed_rpm >= 1
    assert (data.tap.torque is None) == (thread.taper is not None)
    band = thread.internal.pitch_diameter
    found_chance = chance(thread, AcceptanceRequest(minor, minor, band, Decimal(0)))
    for value in (found_chance.minor_diameter, found_chance.pitch_diameter, found_chance.both):
        assert value is None or 0 <= value <= 1
