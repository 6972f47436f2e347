"""The counterbore at the entry: M10x1.5 and 1/4-20, full thread to 20 mm and 0.5 in from the face."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.errors import HoleError
from borewright.core.hole import counterbore
from borewright.core.model import Hole, Length
from borewright.core.model.holes import Counterbore
from every import every


def bored(text, wide, deep):
    found = standards.resolve(callout.read(text))
    sizes = [None if size is None else Length(Decimal(size), found.unit) for size in (wide, deep)]
    return found, Hole("blind", counterbore=None if wide is None else Counterbore(*sizes))


def words(texts):
    return " ".join(texts).replace("\N{NO-BREAK SPACE}", " ")


@every(
    ("text", "wide", "deep", "full", "field", "allowed"),
    [
        # wider than the major diameter; a pitch of 1.5 mm is left of the thread
        ("M10", "10.01", "18.5", "20", None, None),
        ("M10", "10", "5", "20", "diameter", "more than 10 mm"),
        ("M10", "20", "18.51", "20", "depth", "at most 18.5 mm"),
        ("M10", "20", "18.51", "20.00046", "depth", "at most 18.5 mm"),
        ("M10", "20", "18.51", "20.0006", "depth", "at most 18.501 mm"),
        ("M10", "20", "1", "1.4", "depth", "at most 0 mm"),
        ("1/4-20 UNC-2B", "0.5", "0.45", "0.5", None, None),
        ("1/4-20 UNC-2B", "0.5", "0.46", "0.50006", "depth", "at most 0.4501 in"),
        ("M10", "20", None, "20", None, None),
        ("M10", None, None, "1", None, None),
    ],
)
def test_what_fits(text, wide, deep, full, field, allowed):
    found, hole = bored(text, wide, deep)
    if field is None:
        assert counterbore.check(found, hole, Decimal(full)) is None
        return
    with pytest.raises(HoleError) as refused:
        counterbore.check(found, hole, Decimal(full))
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer) == ("counterbore_does_not_fit", f"/hole/counterbore/{field}")
    assert words(fault.allowed) == allowed


@every(
    ("wide", "deep", "floor", "sizes"),
    [
        ("20", "5", "5", ("20", "5")),
        ("20", None, "0", ("20", None)),
        (None, None, "0", (None, None)),
    ],
)
def test_floor_and_sizes(wide, deep, floor, sizes):
    found, hole = bored("M10", wide, deep)
    assert counterbore.floor(found, hole) == Decimal(floor)
    assert counterbore.sizes(found, hole) == tuple(None if size is None else Decimal(size) for size in sizes)


def test_what_is_said_of_it():
    """20 - 5 mm of thread below the floor."""
    found, hole = bored("M10", "20", "5")
    (caution,) = counterbore.notes(found, hole, Decimal(20)).cautions
    assert caution.code == "counterbore_datum"
    assert "15 mm of thread are below its floor" in words([caution.text])
    assert "from the floor, 5 mm are to be added to each" in words([caution.text])
    spotface = counterbore.notes(*bored("M10", "20", None), Decimal(20))
    assert (len(spotface.assumptions), spotface.cautions) == (1, ())
    assert counterbore.notes(*bored("M10", None, None), Decimal(20)) == ((), (), (), (), ())
