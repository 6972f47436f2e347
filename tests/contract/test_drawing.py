"""The section drawing is to scale: lengths measured in the SVG are the figures of the reply."""

from __future__ import annotations

import math
import re
from xml.etree import ElementTree

import pytest
from borewright.contract import replies
from borewright.contract.requests import HOLE_SPEC
from borewright.contract.writers.drawing import section_drawing
from borewright.core.plan.specify import specify

SVG = "{http://www.w3.org/2000/svg}"
#: Paper coordinates are printed to a micrometre: two of them, at the smallest scale used below.
PAPER_MM = 0.0021

HOLES = {
    "inch blind, wall known": {
        "thread": "1/2-13 UNC-2B",
        "hole": {"type": "blind", "full_thread_depth": 1.0, "thickness": 1.6},
        "material": "4140",
        "finish": "ASTM B633 Fe/Zn 8",
    },
    "inch blind, wall open": {"thread": "#4-40 UNC-2B", "hole": {"type": "blind", "full_thread_depth": 0.25}},
    "metric through": {"thread": "M8", "hole": {"type": "through", "thickness": 12}},
    "metric through, part thread": {
        "thread": "M16x1.5",
        "hole": {"type": "through", "thickness": 60, "full_thread_depth": 20},
    },
    "deep and thin": {
        "thread": "M3",
        "hole": {"type": "blind", "full_thread_depth": 12, "thickness": 40, "point_angle": 140},
    },
    "formed": {"thread": "M6", "hole": {"type": "blind", "full_thread_depth": 12}, "method": "form"},
    "taper inch": {"thread": "1/4-18 NPT", "hole": {"type": "blind"}},
    "taper thick wall": {"thread": "1/2-14 NPT", "hole": {"type": "through", "thickness": 3}},
    "taper thin wall": {"thread": "1/2-14 NPT", "hole": {"type": "through", "thickness": 0.25}},
    "taper deep": {"thread": "1/4-18 NPTF", "hole": {"type": "blind", "full_thread_depth": 0.8}},
    "taper milled": {"thread": "Rc 4", "hole": {"type": "blind"}},
    "taper metric through": {"thread": "Rc 1/2", "hole": {"type": "through", "thickness": 25}},
    "shown in the other unit": {
        "thread": "3/8-16 UNC-2B LH",
        "hole": {"type": "blind", "full_thread_depth": 18},
        "unit_system": "metric",
    },
    "large": {"thread": "M64x4", "hole": {"type": "blind", "full_thread_depth": 100, "thickness": 200}},
    "insert": {"thread": "1/4-20 UNC STI", "hole": {"type": "blind", "full_thread_depth": 0.4}},
    "Whitworth": {"thread": "G 1/4", "hole": {"type": "blind", "full_thread_depth": 12}},
}


class Drawing:
    """A drawing read back: points in true lengths of the reply's unit, the entry face at 0."""

    def __init__(self, request):
        asked = HOLE_SPEC.asked(request)
        spec = specify(asked.request)
        self.reply = replies.hole_spec_reply(spec, asked)
        self.text = section_drawing(spec, self.reply).decode()
        self.root = ElementTree.fromstring(self.text)
        unit = 25.4 if self.reply["units"]["length"] == "in" else 1.0
        self.factor = float(self.root.get("data-scale")) * unit
        self.face = float(self.parts("face")[0].get("y1"))
        self.axis = float(self.parts("centre")[0].get("x1"))
        self.tolerance = PAPER_MM / self.factor

    def parts(self, name):
        return [one for one in self.root.iter() if one.get("data-part") == name]

    def points(self, part):
        if part.tag == SVG + "line":
            raw = [(part.get("x1"), part.get("y1")), (part.get("x2"), part.get("y2"))]
        else:
            raw = [pair.split(",") for pair in part.get("points").split()]
        return [((float(x) - self.axis) / self.factor, (float(y) - self.face) / self.factor) for x, y in raw]

    def one(self, name):
        (part,) = self.parts(name)
        return self.points(part)

    def near(self, value):
        return pytest.approx(value, abs=self.tolerance)


@pytest.fixture(params=HOLES, scope="module")
def drawing(request):
    return Drawing(HOLES[request.param])


def across(points):
    return abs(points[1][0] - points[0][0])


def down(points):
    return abs(points[1][1] - points[0][1])


def test_diameters_are_to_scale(drawing):
    reply = drawing.reply
    drilled = reply["drill"]["ream_diameter"] or reply["drill"]["recommended"]["diameter"]
    assert across(drawing.one("dim-drill")) == drawing.near(drilled)
    assert across(drawing.one("dim-major")) == drawing.near(reply["thread"]["basic"]["major_diameter"])
    assert across(drawing.one("dim-countersink")) == drawing.near(reply["depths"]["countersink_diameter"])


def test_depths_are_to_scale(drawing):
    depths = drawing.reply["depths"]
    assert down(drawing.one("dim-full-thread")) == drawing.near(depths["full_thread_depth"])
    if depths["breakthrough"] is not None:
        assert down(drawing.one("dim-thickness")) == drawing.near(depths["drill_depth"])
        return
    assert down(drawing.one("dim-drill-depth")) == drawing.near(depths["drill_depth"])
    assert down(drawing.one("dim-drill-tip")) == drawing.near(depths["drill_tip_depth"])
    taper = drawing.reply["thread"]["taper"]
    run_out = depths["tap_travel"] - depths["full_thread_depth"] if taper else depths["chamfer_length"]
    if run_out:
        assert down(drawing.one("dim-run-out")) == drawing.near(run_out)
    else:
        assert drawing.parts("dim-run-out") == []
    if depths["wall_left"] is not None:
        below = 0.006 if drawing.reply["units"]["length"] == "mm" else 0.0011  # two rounded depths meet here
        assert down(drawing.one("dim-wall-left")) == pytest.approx(depths["wall_left"], abs=below)


def test_the_contour_is_the_hole(drawing):
    reply = drawing.reply
    depths = reply["depths"]
    drilled = reply["drill"]["ream_diameter"] or reply["drill"]["recommended"]["diameter"]
    left, right = (drawing.points(part) for part in drawing.parts("contour"))
    assert [(-x, y) for x, y in left] == [(drawing.near(x), drawing.near(y)) for x, y in right]
    assert right[0] == (drawing.near(depths["countersink_diameter"] / 2), drawing.near(0))
    bottom = right[-1]
    if depths["breakthrough"] is None:
        assert right[-2] == (drawing.near(drilled / 2), drawing.near(depths["drill_depth"]))
        assert bottom == (drawing.near(0), drawing.near(depths["drill_tip_depth"]))
    else:
        assert bottom == (drawing.near(drilled / 2), drawing.near(depths["drill_depth"]))


def test_the_countersink_has_its_angle(drawing):
    _, right = (drawing.points(part) for part in drawing.parts("contour"))
    (x0, y0), (x1, y1) = right[:2]
    included = 2 * math.degrees(math.atan((x0 - x1) / (y1 - y0)))
    assert included == pytest.approx(drawing.reply["depths"]["countersink_angle"], abs=1)


def test_the_thread_is_drawn_by_the_convention(drawing):
    """Narrow line at the major diameter, wide at the crests, wide end of thread, hatching up to the wide line."""
    thread, full = drawing.reply["thread"], drawing.reply["depths"]["full_thread_depth"]
    contour = drawing.parts("contour")
    wide, narrow = float(contour[0].get("stroke-width")), float(drawing.parts("major")[0].get("stroke-width"))
    assert wide >= 2 * narrow
    for part in drawing.parts("major"):
        (x0, y0), (x1, y1) = drawing.points(part)
        assert y1 == drawing.near(full)
        taper = thread["taper"] or 0
        assert abs(x0) - abs(x1) == drawing.near(taper / 2 * (y1 - y0))
        assert abs(x1) == drawing.near((thread["basic"]["major_diameter"] - taper * full) / 2)
    for end in drawing.parts("thread-end"):
        assert float(end.get("stroke-width")) == wide
        assert drawing.points(end)[0][1] == drawing.near(full)
    for area, line in zip(drawing.parts("section-cut"), contour, strict=True):
        assert set(drawing.points(line)) - {drawing.points(line)[-1]} <= set(drawing.points(area))
    assert len(drawing.parts("hatching")) == len(contour)
    assert all(part.get("fill") == "none" for part in drawing.parts("hatching"))


def test_crests_lie_inside_the_major_diameter(drawing):
    """Thread is drawn only where metal is left; below its end the hole of a taper thread is a plain one."""
    thread = [*drawing.parts("major"), *drawing.parts("run-out")]
    end = max(y for part in thread for _, y in drawing.points(part))
    for x, y in drawing.points(drawing.parts("contour")[1])[1:]:
        if y > end + drawing.tolerance:
            continue
        taper = drawing.reply["thread"]["taper"] or 0
        assert x < (drawing.reply["thread"]["basic"]["major_diameter"] - taper * y) / 2 + drawing.tolerance


def test_everything_lies_on_the_sheet_and_says_what_it_is(drawing):
    _, _, wide, high = map(float, drawing.root.get("viewBox").split())
    assert drawing.root.get("width") == f"{wide:g}mm"
    for part in drawing.root.iter():
        for name, most in (("x1", wide), ("x2", wide), ("y1", high), ("y2", high)):
            assert 0 <= float(part.get(name) or 0) <= most
    words = "".join(drawing.root.itertext())
    assert drawing.root.find(SVG + "title").text.endswith(drawing.reply["thread"]["designation"])
    assert f"{round(drawing.reply['depths']['full_thread_depth'], 4):g}" in drawing.root.find(SVG + "desc").text
    assert f"Scale {drawing.root.get('data-scale')}:1" in words or "Scale 1:" in words


def test_nothing_that_a_strict_page_refuses(drawing):
    assert not re.search(r"style=|<style|<script|href|on\w+=|https?://(?!www\.w3\.org/2000/svg)", drawing.text)


def test_a_galvanized_hole_is_drawn_with_the_thread_that_is_cut():
    """3/8-16 after hot-dip zinc: 0.375 + 0.017 in of overtap (ASTM A563) = 0.392 in."""
    hole = {"type": "through", "thickness": 0.75}
    drawing = Drawing({"thread": "3/8-16 UNC-2B", "hole": hole, "material": "A36", "finish": "ASTM A153"})
    assert across(drawing.one("dim-major")) == drawing.near(0.392)


#: Counterbored holes, and the bore, its depth and the countersink at its floor that are drawn.
COUNTERBORED = (
    ({"thread": "5/16-18", "hole": {"type": "blind", "full_thread_depth": 0.75, "drill_depth": 1}}, 0.5, 0.25, 0.3),
    ({"thread": "M8", "hole": {"type": "through", "thickness": 30, "full_thread_depth": 20}}, 14, 5, 9),
    ({"thread": "1/4-18 NPT", "hole": {"type": "through", "thickness": 1}}, 0.8, 0.25, 0.54),
)


@pytest.mark.parametrize(("request_", "wide", "deep", "sink"), COUNTERBORED)
def test_a_counterbore_is_sunk_into_the_face_and_the_countersink_lies_at_its_floor(request_, wide, deep, sink):
    recesses = {"counterbore": {"diameter": wide, "depth": deep}, "countersink": {"diameter": sink}}
    drawing = Drawing({**request_, "hole": {**request_["hole"], **recesses}})
    contour = drawing.points(drawing.parts("contour")[1])
    corners = [(wide / 2, 0), (wide / 2, deep), (sink / 2, deep)]
    assert contour[:3] == [(drawing.near(x), drawing.near(y)) for x, y in corners]
    assert across(drawing.one("dim-counterbore")) == drawing.near(wide)
    assert down(drawing.one("dim-counterbore-depth")) == drawing.near(deep)
    assert drawing.points(drawing.parts("major")[0])[0][1] >= deep - drawing.tolerance


def test_a_countersink_on_both_sides_is_drawn_at_both_faces():
    """82 degrees from 0.7 to the 17/32 drill: (0.7 - 0.53125) / 2 / tan 41 = 0.0971 deep."""
    hole = {"type": "through", "thickness": 0.75, "countersink": {"diameter": 0.7, "angle": 82, "sides": "both"}}
    drawing = Drawing({"thread": "5/8-11 UNC-2B", "hole": hole})
    contour = drawing.points(drawing.parts("contour")[1])
    assert contour[-1] == (drawing.near(0.35), drawing.near(0.75))
    assert contour[-2] == (drawing.near(0.53125 / 2), pytest.approx(0.75 - 0.0971, abs=0.0005))
