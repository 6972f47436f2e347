"""Options that set a field of a request as a column of CSV does."""

from __future__ import annotations

#: The field that an option sets, as :data:`columns.COLUMNS` describes it; further ones have their own code.
FURTHER: dict[str, str] = {
    "--point-angle": "hole.point_angle",
    "--access-depth": "hole.access_depth",
    "--clearance-diameter": "hole.clearance_diameter",
    "--run-out": "hole.run_out",
    "--material-group": "material.group",
    "--tensile-strength": "material.tensile_strength",
    "--finish-class": "finish.class",
    "--finish-thickness": "finish.thickness",
    "--growth-fraction": "finish.growth_fraction",
    "--masked": "finish.masked",
    "--finish-reading": "finish.reading",
    "--drill-series": "drill_series",
    "--engagement": "length_of_engagement",
    "--safety-factor": "safety_factor",
    "--stock-drills": "stock.drills",
    "--stock-taps": "stock.taps",
    "--tapping": "machine.tapping",
    "--max-spindle-speed": "machine.max_spindle_speed",
    "--max-torque": "machine.max_torque",
    "--max-power": "machine.max_power",
    "--strict": "strict",
}
