"""Two documents in one finish, and a document without its class: taken where both mean the same, else asked about."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.errors import FinishError
from borewright.core.finishing.finish_text import read
from borewright.core.model import Range
from every import every

_NOTHING = Range(None, None)


@every(
    ("text", "label"),
    [
        # 8 um and 0.0003 in of zinc by either document: the one that is written first
        ("ASTM B633 Fe/Zn 8, ASTM F1941", "ASTM B633 Fe/Zn 8 SC2"),
        ("ASTM F1941, ASTM B633 Fe/Zn 8", "ASTM F1941 grade 8"),
        # a name of two documents stands for the first that has the class, were the other one thicker
        ("Fe/Cd 8", "ASTM F1941 grade 8"),
        # which row of a hot-dip document it is the size of the thread tells
        ("ASTM F2329, ASTM A153", "ASTM F2329 over 3/8 in"),
        ("ASTM A153, ASTM F2329", "ASTM A153 Class C"),
        # 0.0021 and 0.002 in of zinc, but a thread that is tapped afterwards has none of it
        ("ASTM A153 Class C, ASTM F2329 over 3/8 in", "ASTM A153 Class C"),
        ("MIL-DTL-13924, MIL-DTL-5541", "MIL-DTL-13924D / MIL-C-13924C"),
    ],
)
def test_documents_that_mean_the_same(text, label):
    assert read(text, unit="in").product.label == label


@every(
    ("text", "meant"),
    [
        # 5 um by both, but 0.0002 in by the one that prints inches
        ("ASTM B633 Fe/Zn 5, ASTM B695 Class 5", ("ASTM B633 Fe/Zn 5 SC1", "ASTM B695 Class 5")),
        # 0.0005 in by both, but 12 um by the one that prints them
        ("ASTM B633 Fe/Zn 12, QQ-P-416 Class 1", ("ASTM B633 Fe/Zn 12 SC3", "QQ-P-416F / AMS-QQ-P-416 Class 1")),
        # 5 um by both, in holes by the first only
        ("ASTM B733 SC1, ASTM B695 Class 5", ("ASTM B733 SC1", "ASTM B695 Class 5")),
        # the one is tapped afterwards
        ("ASTM A153, ASTM B545, Class C", ("ASTM A153 Class C", "ASTM B545 Class C")),
        ("ASTM B545, ASTM A153, Class C", ("ASTM B545 Class C", "ASTM A153 Class C")),
        ("TT-C-490", ("TT-C-490 Type III",)),
    ],
)
def test_documents_that_differ_are_asked_about(text, meant):
    with pytest.raises(FinishError) as refused:
        read(text, unit="in")
    (fault,) = refused.value.faults
    assert (fault.code, fault.did_you_mean) == ("finish_ambiguous", meant)
    assert f"can mean {len(meant)} entries" in fault.detail


def test_a_class_that_the_only_row_has_not():
    with pytest.raises(FinishError) as refused:
        read("TT-C-490 Type 5", unit="in")
    (fault,) = refused.value.faults
    assert (fault.code, fault.allowed) == ("finish_class_unknown", ("Type III",))
    assert fault.detail == 'TT-C-490 has no "Type 5" in the tables.'


@every(
    ("text", "process", "least", "most"),
    [
        ("TT-C-490 .0004 in", "organic pretreatment", "1", "1"),
        ("ASTM B633 .0004 in", "electrodeposited zinc", "1", "1"),
        # a third to a half of thin films, half of a hard one; what all rows have in common is told
        ("MIL-A-8625 .001 in", "anodize", "0.33", "0.5"),
        ("MIL-DTL-16232 .0004 in", "phosphate", "0.5", "1"),
        ("QQ-N-290 .001 in", "electrodeposited nickel", "1", "1"),
        ("NASM35649 .0001 in", "thin plate on nuts", "1", "1"),
    ],
)
def test_with_a_thickness_no_class_is_needed(text, process, least, most):
    found = read(text, unit="in").product
    assert (found.process, found.growth) == (process, Range(Decimal(least), Decimal(most)))
    assert (found.finish_class, found.thickness_um, found.thickness_in) == (None, _NOTHING, _NOTHING)
    assert (found.max_rule, found.note, found.states_thickness) == ("must_be_given", "", False)


@every(
    ("text", "unused"),
    [
        ("375 F bake, Fe/Zn 8 yellow", "words of the finish that were not used: 375 f bake yellow"),
        ("ASTM B633 Fe/Zn 8 type yellow", "words of the finish that were not used: type yellow"),
        ("ASTM B633 Fe/Zn 8 type 2 class", "type 2: no effect on the thickness of ASTM B633"),
    ],
)
def test_words_that_change_nothing(text, unused):
    said = read(text, unit="in").assumptions
    assert unused in said


def test_without_its_class_a_document_is_cited_as_its_first_class_is():
    """Class 1 of QQ-N-290A is in its edition of November 1971, class 2 is told of by a process specification."""
    found = read("QQ-N-290 .001 in", unit="in").product
    assert (found.document, found.edition, found.growth_status) == ("QQ-N-290A", "November 1971", "computed")
