"""The whole derivation of a thread: every line, with the figure that is printed or that hand arithmetic gives."""

from __future__ import annotations

from borewright.core import callout
from borewright.core.standards import resolve
from every import every

#: The figures of M8x1.25 that stand behind 6G and 6H alike: mate 6g, es -28, Td2 6 118, Td 6 212 (ISO 965-1).
M8_MATE = """
    es(g) -28 Td2(6) 118 Td(6) 212
    external.major_diameter.max 7.972 external.major_diameter.min 7.760
    external.pitch_diameter.max 7.160 external.pitch_diameter.min 7.042
    external.minor_diameter.max 6.619 external.minor_diameter.min 6.272
    external_reference.minor_diameter_d3 6.438 tensile_stress_area 36.6
"""
M8_BASIC = "basic.pitch_diameter 7.188 basic.minor_diameter 6.647"

#: Callout; edition of ASME B1.1; its figures in their order.
STEPS = [
    # EI of H is nothing to look up; TD2 6 160, TD1 6 265
    (
        "M8-6H",
        None,
        f"""{M8_BASIC} TD2(6) 160 TD1(6) 265
        internal.pitch_diameter.min 7.188 internal.pitch_diameter.max 7.348
        internal.minor_diameter.min 6.647 internal.minor_diameter.max 6.912 {M8_MATE}""",
    ),
    (
        "M8-6G",
        None,
        f"""{M8_BASIC} EI(G) 28 TD2(6) 160 TD1(6) 265
        internal.pitch_diameter.min 7.216 internal.pitch_diameter.max 7.376
        internal.minor_diameter.min 6.675 internal.minor_diameter.max 6.940 {M8_MATE}""",
    ),
    # EI 300 + 20 x 1.75; 12 - 1.136658 = 10.863, 12 - 1.894431 = 10.106 (10.10557); TD2 6 200, TD1 6 335; es -34,
    # Td2 150, Td 265; root 10.106 - .034, 12 - .184 - 2.214702; d3 11.966 - 2.147021; .785398 (12 - 1.641840)^2 = 84.27
    (
        "M12-6AZ",
        None,
        """basic.pitch_diameter 10.863 basic.minor_diameter 10.106 EI(AZ) 335 TD2(6) 200 TD1(6) 335
        internal.pitch_diameter.min 11.198 internal.pitch_diameter.max 11.398
        internal.minor_diameter.min 10.441 internal.minor_diameter.max 10.776
        es(g) -34 Td2(6) 150 Td(6) 265
        external.major_diameter.max 11.966 external.major_diameter.min 11.701
        external.pitch_diameter.max 10.829 external.pitch_diameter.min 10.679
        external.minor_diameter.max 10.072 external.minor_diameter.min 9.601
        external_reference.minor_diameter_d3 9.819 tensile_stress_area 84.3""",
    ),
    # D - .974279 P; no root of the screw is held, and its pitch diameter is that of M: 4h Td2 75, 6h Td 212
    (
        "MJ8x1.25-4H5H",
        None,
        """basic.pitch_diameter 7.188 basic.minor_diameter 6.782 TD2(4) 100 TD1(5) 212
        internal.pitch_diameter.min 7.188 internal.pitch_diameter.max 7.288
        internal.minor_diameter.min 6.782 internal.minor_diameter.max 6.994 Td2(4) 75 Td(6) 212
        external.major_diameter.max 8 external.major_diameter.min 7.788
        external.pitch_diameter.max 7.188 external.pitch_diameter.min 7.113 tensile_stress_area 36.6""",
    ),
    # P 1/13; Td2 .0015 (.793701 + .707107) + .015 x .180872; 2B 1.3 of it, es .3, TD1 .25 P - .4 P^2; limits as printed
    (
        "1/2-13 UNC-2B",
        None,
        """P 0.07692308 basic.pitch_diameter 0.4500 basic.minor_diameter 0.4167 Td2 0.004964
        pitch_tolerance_2B 0.006453 internal.pitch_diameter.max 0.4565
        TD1 0.016864 internal.minor_diameter.min 0.417 internal.minor_diameter.max 0.434
        es 0.0015 pitch_tolerance_2A 0.004964
        external.major_diameter.max 0.4985 external.major_diameter.min 0.4876
        external.pitch_diameter.max 0.4485 external.pitch_diameter.min 0.4435
        external.minor_diameter.max 0.4152 tensile_stress_area 0.1419""",
    ),
    # .5 - .974279 / 13; TD1 of 3B .05 x .180872 + .03 x .076923 / .5 - .002; 3B .975, 3A .75 of Td2, no es
    (
        "1/2-13 UNJC-3B",
        None,
        """P 0.07692308 basic.pitch_diameter 0.4500 basic.minor_diameter 0.4251 Td2 0.004964
        TD1 0.011659 internal.minor_diameter.max 0.4368 pitch_tolerance_3B 0.004840
        internal.pitch_diameter.max 0.4548 pitch_tolerance_3A 0.0037
        external.major_diameter.max 0.5000 external.major_diameter.min 0.4891
        external.pitch_diameter.max 0.4500 external.pitch_diameter.min 0.4463 tensile_stress_area 0.1419""",
    ),
    # .8 - .649519 x .2; the minor diameter as printed
    (
        "0.80 UNM",
        None,
        "basic.pitch_diameter 0.670 internal.minor_diameter.min 0.592 internal.minor_diameter.max 0.668",
    ),
]


@every(("text", "edition", "figures"), STEPS)
def test_every_line_of_a_derivation(text, edition, figures):
    steps = resolve(callout.read(text), edition=edition).notes.steps
    words = figures.split()
    told = [(step.quantity, float(step.value)) for step in steps]
    assert [quantity for quantity, _ in told] == words[::2]
    for (quantity, value), printed in zip(told, words[1::2], strict=True):
        assert abs(value - float(printed)) <= 0.000001, quantity


@every(
    ("text", "quantity", "printed"),
    [
        # limits tables of 1982/1989 where they leave the formula: .3 x .005501 = .0017; Td2 of 2 7/8-16 .0057
        ("5/8-11 UNC-2B", "es", "0.0016"),
        ("2 7/8-16 UN-2B", "pitch_tolerance_2A", "0.0056"),
    ],
)
def test_a_figure_that_is_printed_off_the_formula_is_one_of_the_table(text, quantity, printed):
    by_edition = {
        edition: [
            step for step in resolve(callout.read(text), edition=edition).notes.steps if step.quantity == quantity
        ]
        for edition in ("1989", "2019")
    }
    (older,), (newer,) = by_edition["1989"], by_edition["2019"]
    assert (older.formula, dict(older.inputs), str(older.value)) == ("table", {}, printed)
    assert newer.formula != "table"
    assert "1982/1989" in older.source


def test_what_a_tolerance_is_looked_up_by():
    """ISO 965-1: pitch-diameter tolerances by diameter and pitch, deviations by pitch."""
    steps = {step.quantity: step for step in resolve(callout.read("M8-6G")).notes.steps}
    assert {name: float(value) for name, value in steps["TD2(6)"].inputs.items()} == {"D": 8, "P": 1.25}
    assert {name: float(value) for name, value in steps["EI(G)"].inputs.items()} == {"P": 1.25}
    assert {steps[name].unit for name in ("TD2(6)", "TD1(6)", "EI(G)", "es(g)")} == {"um"}


@every("text", ["1/4-20 UNJC-3B", "1/4-20 UNC STI", "M8x1 STI", "1/4-18 NPT", "G 1/4", "Tr 40x7", "1-5 ACME", "BA 4",
                "1/4 BSW", "0.8 UNM", "MJ8x1.25"])  # fmt: skip
def test_every_step_has_a_unit_of_length_or_area_and_a_source(text):
    for step in resolve(callout.read(text)).notes.steps:
        assert step.unit in ("in", "mm", "um", "in2", "mm2"), step
        assert len(step.source) > 4, step
