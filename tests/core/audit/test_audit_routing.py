"""A routing of 200 lines: the audit finds the planted mistakes and the drills to decide on, nothing on the others.

The good lines were planned from the published charts and the handbook's recommended limits (column ``basis``), not from
the service's own choice.
"""

from __future__ import annotations

import csv
from collections import Counter
from decimal import Decimal
from functools import cache
from pathlib import Path

from borewright.core import callout
from borewright.core.audit import CODES, AsPlanned, AuditRequest, PlannedTap, audit
from borewright.core.model import FinishInput, Hole, Length, LengthRange, MaterialInput
from borewright.core.requests import HoleSpecRequest
from every import every

ROUTING = Path(__file__).with_name("kestrel_ridge_routing.csv")
WORDS = {"plate": "finish", "galvanize": "finish"}


def lines():
    with ROUTING.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


LINES = lines()
GOOD = [line for line in LINES if not line["mistake"]]
BAD = [line for line in LINES if line["mistake"]]


def length(text):
    if not text:
        return None
    number, unit = text.split()
    return Length(Decimal(number), unit)


def finish(text):
    """A thickness on a surface (``0.005-0.008 mm``), or a specification."""
    if not text:
        return None
    if text[0] != "0":
        return FinishInput(text=text)
    ends, unit = text.split()
    least, most = ends.split("-")
    return FinishInput(thickness=LengthRange(Length(Decimal(least), unit), Length(Decimal(most), unit)))


def request(line):
    depth, through = length(line["depth"]), line["hole"] == "through"
    hole = Hole(
        line["hole"],
        full_thread_depth=None if through else depth,
        thickness=depth if through else length(line["wall"]),
    )
    spec = HoleSpecRequest(
        thread=callout.read(line["thread"]),
        hole=hole,
        id=line["part"],
        material=MaterialInput(name=line["material"]),
        finish=finish(line["finish"]),
        method=line["method"] or "cut",
    )
    order = tuple(WORDS.get(word, word) for word in line["order"].split(",")) if line["order"] else None
    plan = AsPlanned(
        drill=line["drill"],
        tap=PlannedTap(line["tap"], style=line["tap_style"] or None, chamfer=line["tap_chamfer"] or None),
        drill_depth=length(line["drill_depth"]),
        spindle_speed_rpm=float(line["drill_rpm"]) if line["drill_rpm"] else None,
        tap_spindle_speed_rpm=float(line["tap_rpm"]) if line["tap_rpm"] else None,
        operations_order=order,
    )
    return AuditRequest(spec, plan)


@cache
def audited(part):
    """The verdict on the line of a part, and the codes of its errors and warnings."""
    found = audit(request(next(line for line in LINES if line["part"] == part)))
    return found.verdict, [finding.code for finding in found.findings if finding.severity != "info"]


def raised(line):
    return audited(line["part"])[1]


def test_the_file_holds_what_it_says():
    assert (len(GOOD), len(BAD)) == (129, 71)
    assert {line["mistake"] for line in BAD} <= set(CODES)
    assert len({line["mistake"] for line in BAD}) >= 20
    assert len({line["part"] for line in LINES}) == 200


@every("line", BAD, ids=lambda line: f"{line['part']} {line['mistake']}")
def test_planted_mistake_is_found(line):
    assert set(raised(line)) == {line["mistake"]}


@every("line", GOOD, ids=lambda line: f"{line['part']} {line['thread']}")
def test_good_line_raises_nothing(line):
    assert raised(line) == []


def test_verdicts_count():
    verdicts = Counter(audited(line["part"])[0] for line in LINES)
    assert verdicts["accept"] == 129
    assert verdicts["reject"] + verdicts["review"] == 71
