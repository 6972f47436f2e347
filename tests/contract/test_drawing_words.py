"""No line runs through words of a drawing, and no words through others: measured with the letters of a printer."""

from __future__ import annotations

from itertools import pairwise
from xml.etree import ElementTree

import pytest
from borewright.contract import replies
from borewright.contract.requests import HOLE_SPEC
from borewright.contract.writers.drawing import section_drawing
from borewright.core import standards
from borewright.core.errors import BorewrightError
from borewright.core.plan.specify import specify

SVG = "{http://www.w3.org/2000/svg}"
HOLES = [
    {"thread": "M12", "hole": {"type": "blind", "full_thread_depth": 3}},
    {"thread": "M3", "hole": {"type": "blind", "full_thread_depth": 12, "thickness": 15.2, "point_angle": 90}},
    {"thread": "2-4.5 UNC-2B", "hole": {"type": "blind", "full_thread_depth": 3}},
    {"thread": "1/4-18 NPT", "hole": {"type": "through", "thickness": 0.25}},
    {"thread": "Rc 4", "hole": {"type": "blind"}, "unit_system": "inch"},
    {"thread": "1/4-20 UNC-3B STI LH", "hole": {"type": "blind", "full_thread_depth": 0.4}},
    {
        "thread": "5/16-18 UNC-2B",
        "hole": {"type": "blind", "full_thread_depth": 0.75, "counterbore": {"diameter": 0.5, "depth": 0.25}},
    },
    {
        "thread": "M8",
        "hole": {
            "type": "through",
            "thickness": 9,
            "counterbore": {"diameter": 9, "depth": 1},
            "countersink": {"diameter": 8.4, "sides": "both"},
        },
    },
    {
        "thread": "1/2-13 UNC-2B",
        "hole": {"type": "blind", "full_thread_depth": 1.0, "thickness": 1.6},
        "finish": "ASTM B633 Fe/Zn 8",
        "id": "KRP-4105-D1",
    },
]


def catalogue_holes(step):
    """A shallow, a usual and a through hole of every ``step``-th size."""
    for row in standards.catalogue()[::step]:
        size = float(row.nominal_diameter)
        for hole in (
            {"type": "blind", "full_thread_depth": round(size / 3, 3)},
            {"type": "blind", "full_thread_depth": round(size * 2, 3), "thickness": round(size * 4, 3)},
            {"type": "through", "thickness": round(size / 2, 3)},
        ):
            yield {"thread": row.designation, "hole": hole}


def drawn(body):
    asked = HOLE_SPEC.asked(body)
    spec = specify(asked.request)
    return ElementTree.fromstring(section_drawing(spec, replies.hole_spec_reply(spec, asked)))


def words_of(root):
    """Boxes of the words by the metrics of the face that Cairo takes for the drawing's: left, top, right, bottom."""
    cairocffi = pytest.importorskip("cairocffi")
    paper = cairocffi.Context(cairocffi.ImageSurface(cairocffi.FORMAT_A8, 1, 1))
    paper.select_font_face("Arial")
    for text in root.iter(SVG + "text"):
        size = float(text.get("font-size"))
        paper.set_font_size(100)
        width = paper.text_extents(text.text)[4] * size / 100
        x, y = float(text.get("x")), float(text.get("y"))
        left = x - {"start": 0.0, "middle": width / 2, "end": width}[text.get("text-anchor")]
        yield text.text, (left, y - 0.72 * size, left + width, y + 0.2 * size)


def segments_of(root):
    for part in root.iter():
        if part.tag == SVG + "line":
            yield tuple(float(part.get(name)) for name in ("x1", "y1", "x2", "y2"))
        elif part.tag in {SVG + "polyline", SVG + "polygon"}:
            points = [tuple(map(float, pair.split(","))) for pair in part.get("points").split()]
            yield from ((*start, *end) for start, end in pairwise(points))


def meets(box, segment):
    """Whether a segment has a point inside a box (Liang and Barsky's clipping)."""
    left, top, right, bottom = box
    x1, y1, x2, y2 = segment
    enter, leave = 0.0, 1.0
    for way, room in ((x1 - x2, x1 - left), (x2 - x1, right - x1), (y1 - y2, y1 - top), (y2 - y1, bottom - y1)):
        if way == 0:
            if room <= 0:
                return False
        elif way < 0:
            enter = max(enter, room / way)
        else:
            leave = min(leave, room / way)
    return enter < leave


def overlap(one, other):
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def faults(body):
    root = drawn(body)
    _, _, wide, high = map(float, root.get("viewBox").split())
    words, segments = list(words_of(root)), list(segments_of(root))
    assert len(words) > 6
    assert len(segments) > 20
    for place, (text, box) in enumerate(words):
        if box[0] < 0 or box[1] < 0 or box[2] > wide or box[3] > high:
            yield f"{text} leaves the sheet"
        if any(meets(box, segment) for segment in segments):
            yield f"{text} is struck through"
        yield from (f"{text} lies on {other}" for other, another in words[place + 1 :] if overlap(box, another))


def all_faults(bodies):
    found, seen = {}, 0
    for body in bodies:
        try:
            here = list(faults(body))
        except BorewrightError:  # sizes without limits, or no drill, are refused elsewhere
            continue
        seen += 1
        if here:
            found[f"{body['thread']} {body['hole']}"] = here
    return found, seen


def test_the_measure_sees_what_is_struck_through():
    assert meets((0, 0, 10, 2), (-1, 1, 11, 1))
    assert meets((0, 0, 10, 2), (5, -3, 5, 3))
    assert not meets((0, 0, 10, 2), (-1, 3, 11, 3))
    assert not meets((0, 0, 10, 2), (-1, 1, -0.1, 1))
    assert overlap((0, 0, 10, 2), (9, 1, 12, 3))


def test_no_words_are_struck_through():
    found, seen = all_faults([*HOLES, *catalogue_holes(97)])
    assert found == {}
    assert seen > 30


@pytest.mark.long
def test_no_words_are_struck_through_in_the_whole_catalogue():
    found, seen = all_faults(catalogue_holes(1))
    assert found == {}
    assert seen > 1000
