"""The printed notes of ``tests/published/hole_notes.csv`` read as their sources and rules say. Notes of rules for which
no document was seen (``tests/derived/hole_notes_by_rule.csv``) and further notes of all rules
(``tests/derived/hole_notes.csv``) are read consistently with what was judged by hand before they were read.
"""

from __future__ import annotations

import csv
import json
from decimal import Decimal
from pathlib import Path

from borewright.core import callout, standards
from borewright.core.notes import CODES, NoteRequest, read
from every import every

TESTS = Path(__file__).parents[2]
UNITS = {"inch": "in", "metric": "mm", "": None}
SLACK = {"in": Decimal("0.00006"), "mm": Decimal("0.0006")}


def rows(name):
    with (TESTS / name).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


NOTES = rows("published/hole_notes.csv") + rows("derived/hole_notes_by_rule.csv")
FURTHER = rows("derived/hole_notes.csv")


def reading_of(row):
    general = tuple(json.loads(row["general_notes"] or "[]"))
    return read(NoteRequest(row["note"], UNITS[row["unit_system"]], general))


def designation(text):
    return standards.resolve(callout.read(text)).designation


def written(hole):
    """A hole in the names of the printed expectations."""
    said = hole.as_written
    sink, bore = said.countersink, said.counterbore
    return {
        "count": hole.count,
        "thread": hole.thread,
        "type": hole.kind,
        "full_thread_depth": hole.full_thread_depth,
        "drill": said.drill,
        "drill_depth": said.drill_depth,
        "countersink": sink and {"diameter": sink.diameter, "angle": sink.angle_deg},
        "counterbore": bore and {"diameter": bore.diameter, "depth": bore.depth},
        "sides": said.sides,
        "thickness": said.thickness,
        "finish": hole.finish,
        "dimensions_apply": hole.dimensions_apply,
    }


def agrees(found, expected, slack):
    if isinstance(expected, dict):
        return found is not None and all(agrees(found[key], value, slack) for key, value in expected.items())
    if isinstance(expected, int | float) and found is not None:
        return abs(found - Decimal(str(expected))) <= slack
    return found == expected


def is_shown(span, text, note):
    return text in note[span.start : span.end]


def test_all_notes_of_the_rules_are_here():
    assert len(NOTES) == 80
    assert {code for row in NOTES for code in json.loads(row["expected"])["questions"]} == set(CODES)


@every("row", NOTES, ids=lambda row: row["id"])
def test_reads_as_the_rule_says(row):
    reading, expected = reading_of(row), json.loads(row["expected"])
    assert {question.code for question in reading.questions} == set(expected["questions"])
    if expected["holes"] is not None:
        assert len(reading.holes) == len(expected["holes"])
        for hole, said in zip(reading.holes, expected["holes"], strict=True):
            found = written(hole)
            assert designation(found["thread"]) == designation(said.pop("thread"))
            assert {key: found[key] for key in said if not agrees(found[key], said[key], SLACK[hole.unit])} == {}
    assert [
        text for text in expected["unread"] if not any(is_shown(s, text, row["note"]) for s in reading.unread)
    ] == []
    assert len(reading.unread) == len(expected["unread"])


@every("row", NOTES, ids=lambda row: row["id"])
def test_every_character_is_accounted_for(row):
    reading = reading_of(row)
    spans = [span for hole in reading.holes for span in hole.read_from]
    covered = {place for span in (*spans, *reading.not_holes, *reading.unread) for place in range(span.start, span.end)}
    left = [sign for place, sign in enumerate(row["note"]) if place not in covered and not sign.isspace()]
    assert left == []


def judged(row):
    """What is read otherwise than it was judged, in words; a question is compared by its code."""
    reading = reading_of(row)
    wrong = [] if {one.code for one in reading.questions} == set(row["questions"].split()) else ["questions"]
    left = [row["note"][span.start : span.end] for span in reading.unread]
    expected = json.loads(row["unread"] or "[]")
    wrong += ["unread"] if len(left) != len(expected) or not all(map(str.__contains__, left, expected)) else []
    if not row["holes"]:  # the rule fixes the question only
        return wrong
    holes = json.loads(row["holes"])
    if len(holes) != len(reading.holes):
        return [*wrong, "holes"]
    for hole, said in zip(reading.holes, holes, strict=True):
        found, thread = written(hole), said.pop("thread")
        wrong += [] if designation(found["thread"]) == designation(thread) else ["thread"]
        wrong += [name for name in said if not agrees(found[name], said[name], SLACK[hole.unit])]
    return wrong


def test_further_notes_read_as_judged():
    """Each rule in the spellings that its words and signs allow; none is guessed otherwise than it was judged."""
    assert len(FURTHER) > 500
    assert [(row["rule"], row["note"], wrong) for row in FURTHER if (wrong := judged(row))] == []


def test_a_drill_that_there_is_not_leaves_the_service_to_choose():
    """Numbers of drills end at 97 (ASME B94.11M): #99 cannot be kept as it is written."""
    (asked,) = read(NoteRequest("#99 DRILL, 1/4-20 UNC-2B THRU", "in", ())).questions
    assert (asked.code, tuple(asked.options)) == ("drill_disagrees", ("use the service's",))
