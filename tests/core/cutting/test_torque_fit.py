"""The fit of the torque model to every measured series that was found, with its residuals."""

import csv
import math
from itertools import groupby
from pathlib import Path

import pytest
from borewright.core.cutting import torque
from borewright.core.cutting.cutting_force import cutting_force
from borewright.core.cutting.speeds import factor
from borewright.core.materials import part_material
from borewright.core.materials.profile import profile
from borewright.core.model import MaterialInput

MEASURED = Path(__file__).parents[2] / "published" / "tapping_torque_measured.csv"
TAN_30 = 0.5773502691896258

# kc1.1 and mc of Tabellenbuch Zerspantechnik, 5th ed. 2022, p. 215: grey iron and wrought aluminium
CONSTANTS = {"A": (1050, 0.23), "B": (470, 0.27)}
# The class stands for 215 HB here; force grows with the root of hardness (common practice)
CORRECTION = {"A": (226 / 215) ** 0.5, "B": 1.0}


def _rows():
    with MEASURED.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def _model(row):
    """Torque of the chip section by hand: h, A, r, chip, kc; factor 1, spiral-point tap."""
    diameter, pitch = float(row["diameter_mm"]), float(row["pitch_mm"])
    h = (diameter - float(row["hole_mm"])) / 2
    area = h * (pitch / 8 + TAN_30 * h)
    a, b = pitch / 8, pitch / 8 + 2 * TAN_30 * h
    arm = diameter / 2 - h / 3 * (a + 2 * b) / (a + b)
    kc1, mc = CONSTANTS[row["series"]]
    kc = kc1 * (h / (float(row["chamfer_threads"]) * float(row["flutes"]))) ** -mc * CORRECTION[row["series"]]
    return kc * area * arm / 1000


def _ratios():
    """Geometric mean of measured over model by series, sharp and lubricated taps."""
    good = [row for row in _rows() if row["lubricated"] == "yes"]
    found = {}
    for series, rows in groupby(good, key=lambda row: row["series"]):
        logs = [math.log(float(row["torque_n_m"]) / _model(row)) for row in rows]
        found[series] = math.exp(sum(logs) / len(logs))
    return found


def test_one_factor_fits_both_series():
    ratios = _ratios()
    fitted = math.exp(sum(math.log(ratio) for ratio in ratios.values()) / len(ratios))
    assert factor("total") == pytest.approx(fitted, abs=0.005)
    residuals = {series: ratio / fitted - 1 for series, ratio in ratios.items()}
    assert residuals == pytest.approx({"A": 0.021, "B": -0.020}, abs=0.002)


def test_every_measured_value_lies_inside_the_scatter():
    """Lubricated and dry, sharp taps: two standard deviations of 0.30 on the logarithm. The worn tap does not."""
    for row in _rows():
        band = torque.scatter(factor("total") * _model(row))
        worn = "worn" in row["condition"]
        assert (band.low <= float(row["torque_n_m"]) <= band.high) is not worn, row["condition"]
        if worn:
            assert factor("worn") == pytest.approx(float(row["torque_n_m"]) / _model(row), abs=0.05)


def test_the_product_uses_what_was_fitted():
    for text, row in (("GG25 226 HB", _rows()[0]), ("6061-T6", _rows()[3])):
        force = cutting_force(profile(part_material.find(MaterialInput(text))))
        h = (float(row["diameter_mm"]) - float(row["hole_mm"])) / 2
        chip = h / (float(row["chamfer_threads"]) * float(row["flutes"]))
        kc1, mc = CONSTANTS[row["series"]]
        assert force.at(chip) == pytest.approx(kc1 * chip**-mc * CORRECTION[row["series"]], rel=2e-3)
