"""What a finish text that cannot be taken is told: its own words, the classes that there are, which document is meant.

ASTM B633 has four classes: 5, 8, 12 and 25 um of zinc for service conditions 1 to 4.
"""

from __future__ import annotations

import pytest
from borewright.core.errors import FinishError
from borewright.core.finishing.finish_text import read
from every import every

_ZINC = ("Fe/Zn 5 SC1", "Fe/Zn 8 SC2", "Fe/Zn 12 SC3", "Fe/Zn 25 SC4")
_MEANT = tuple(f"ASTM B633 {one}" for one in _ZINC)
_EIGHT = ("ASTM B633 Fe/Zn 8 SC2",)
_SEVERAL = "can mean 4 entries of the tables; they differ in thickness: name the class."


@every(
    ("text", "code", "detail", "allowed", "meant"),
    [
        # no more than eighty of its characters are shown
        ("q" * 80, "finish_unknown", f'The finish "{"q" * 80}" is not in the tables.', (), ()),
        ("q" * 81, "finish_unknown", f'The finish "{"q" * 80}" is not in the tables.', (), ()),
        ("zinc plate", "finish_ambiguous", f'The finish "zinc plate" {_SEVERAL}', (), _MEANT),
        (" zinc plate  ", "finish_ambiguous", f'The finish "zinc plate" {_SEVERAL}', (), _MEANT),
        ("zinc plate " + "q" * 69, "finish_ambiguous", f'The finish "zinc plate {"q" * 69}" {_SEVERAL}', (), _MEANT),
        ("zinc plate " + "q" * 70, "finish_ambiguous", f'The finish "zinc plate {"q" * 69}" {_SEVERAL}', (), _MEANT),
        # a class that there is not, as it was written; of two the first, of two documents that of the first
        ("ASTM B633 SC7", "finish_class_unknown", 'ASTM B633 has no "SC7" in the tables.', _ZINC, ()),
        ("ASTM B633 Sc7 SC9", "finish_class_unknown", 'ASTM B633 has no "Sc7" in the tables.', _ZINC, ()),
        ("ASTM B633 ASTM B733 Class Q", "finish_class_unknown", 'ASTM B633 has no "Class Q" in the tables.', _ZINC, ()),
        ("Fe/Zn 9", "finish_class_unknown", 'ASTM B633 has no "Fe/Zn 9" in the tables.', _ZINC, ()),
        # letters and a number of three digits are a document, with a body of standards before it any number is
        (
            "Fe/Zn 8 abc 100",
            "finish_unknown",
            '"abc 100" looks like a document that is not held, beside ASTM B633 Fe/Zn 8 SC2.',
            (),
            _EIGHT,
        ),
        (
            "Fe/Zn 8 abc 99",
            "finish_ambiguous",
            '"99" in the finish has no unit: write it with one if it is the thickness.',
            ("99 um", "99 mil"),
            (),
        ),
        (
            "astm 63 Fe/Zn 8",
            "finish_unknown",
            '"astm 63" looks like a document that is not held, beside ASTM B633 Fe/Zn 8 SC2.',
            (),
            _EIGHT,
        ),
        (
            "Fe/Zn 8 astm q 63",
            "finish_unknown",
            '"q 63" looks like a document that is not held, beside ASTM B633 Fe/Zn 8 SC2.',
            (),
            _EIGHT,
        ),
    ],
)
def test_what_is_told(text, code, detail, allowed, meant):
    with pytest.raises(FinishError) as refused:
        read(text, unit="in")
    fault = refused.value.faults[0]
    assert (fault.code, fault.detail) == (code, detail)
    assert (fault.allowed, fault.did_you_mean) == (allowed, meant)


@every(
    ("text", "label", "unused"),
    [
        # with a thickness no class is needed: of two documents the first
        ("ASTM B633 ASTM F1941 0.0005 in", "ASTM B633", ()),
        ("ASTM F1941 ASTM B633 0.0005 in", "ASTM F1941", ()),
        # three words after its name a body of standards says nothing of a number
        ("ASTM B633 Fe/Zn 8, din fastener hole 12 plc", _EIGHT[0], ("words of the finish that were not used: 12 plc",)),
        ("ASTM B633 Fe/Zn 8 yellow", _EIGHT[0], ("words of the finish that were not used: yellow",)),
        # the year of an edition, in two figures or four, is no word of the finish
        ("ASTM B633-19 Fe/Zn 8", _EIGHT[0], ()),
        ("ASTM B633-2019 Fe/Zn 8", _EIGHT[0], ()),
        ("ASTM B633:2019 Fe/Zn 8", _EIGHT[0], ()),
        # one letter on the number of a document is its revision, two are not
        ("AMS 2404F .001 in", "AMS 2404", ()),
        ("AMS 2404FX .001 in", "AMS 2404", ("words of the finish that were not used: fx",)),
    ],
)
def test_what_is_read(text, label, unused):
    found = read(text, unit="in")
    assert (found.product.label, found.assumptions) == (label, unused)
