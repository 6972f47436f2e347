"""Findings on speeds, whole, worked out by hand."""

from __future__ import annotations

from borewright.core.requests import Machine

from .planned import findings


def test_words_on_speeds():
    """Ti-6Al-4V is drilled at 39 ft/min = 11.89 m/min: 353 rev/min of 10.716 mm; 389 rev/min are 13.1 m/min."""
    said = findings(material="Ti-6Al-4V", spindle_speed_rpm=389.0)
    ((code, severity, field, text, planned, expected),) = [one for one in said if "speed" in one[0]]
    assert (code, severity, field) == ("drill_speed_too_high", "warning", "spindle_speed")
    assert text.startswith("389 rev/min on 10.716 mm are 13.1 m/min; the tables of high-speed steel end at 11.9 m/min")
    assert "(353 rev/min) in Ti-6Al-4V" in text
    assert text.endswith(". Carbide or a coat may bear more.")
    assert (planned, expected) == ("389 rev/min", "at most 353 rev/min")
    machine = {"machine": Machine(max_spindle_speed_rpm=3000.0)}
    text = "3500 rev/min is planned; the machine turns 3000 rev/min."
    for field in ("spindle_speed", "tap_spindle_speed"):
        assert findings(asked=machine, **{f"{field}_rpm": 3500.0}) == [
            ("speed_above_machine", "warning", field, text, "3500 rev/min", "at most 3000 rev/min")
        ]
