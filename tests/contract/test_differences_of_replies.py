"""Where two replies differ and why, by small replies made by hand."""

from __future__ import annotations

import re

from borewright.contract.compare.causes import Causes, Versions, of_service, told
from borewright.contract.compare.differences import Walk
from borewright.contract.compare.kept import Kept
from borewright.contract.sections.detail import BY_DETAIL
from every import every


def caution(code, text="x", **more):
    return {"code": code, "text": text, **more}


@every(
    ("before", "after", "differences"),
    [
        # rows are known by their code, wherever they stand
        ({"cautions": [caution("a"), caution("b")]}, {"cautions": [caution("b"), caution("a")]}, []),
        ({"cautions": [caution("a"), caution("b")]}, {"cautions": [caution("b"), caution("a", "y")]},
         [("/cautions/1/text", "changed", "words", "x", "y")]),
        ({"cautions": [caution("a"), caution("b")]}, {"cautions": [caution("a")]},
         [("/cautions/1", "removed", "caution", caution("b"), None)]),
        ({"cautions": [caution("b")]}, {"cautions": [caution("a"), caution("b")]},
         [("/cautions/0", "added", "caution", None, caution("a"))]),
        # of several with one code the first stands for the first
        ({"cautions": [caution("a"), caution("a", "y")]}, {"cautions": [caution("a")]},
         [("/cautions/1", "removed", "caution", caution("a", "y"), None)]),
        ({"cautions": [caution("a"), caution("a", "y")]}, {"cautions": [caution("a"), caution("a", "z")]},
         [("/cautions/1/text", "changed", "words", "y", "z")]),
        # the code counts before the label
        ({"cautions": [caution("a", label="N")]}, {"cautions": [caution("a", label="O")]},
         [("/cautions/0/label", "changed", "caution", "N", "O")]),
        # texts are known by themselves
        ({"assumptions": ["one", "two"]}, {"assumptions": ["two", "three"]},
         [("/assumptions/1", "added", "words", None, "three"), ("/assumptions/0", "removed", "words", "one", None)]),
        # 1 is 1.0, and not true
        ({"limits": {"minor_diameter": {"min": 1}}}, {"limits": {"minor_diameter": {"min": 1.0}}}, []),
        ({"limits": {"minor_diameter": {"min": 1}}}, {"limits": {"minor_diameter": {"min": True}}},
         [("/limits/minor_diameter/min", "changed", "limit", 1, True)]),
        ({"operations": [{"text": "x", "time": False}]}, {"operations": [{"text": "x", "time": 0}]},
         [("/operations/0/time", "changed", "figure", False, 0)]),
        ({"limits": {"minor_diameter": {"min": 1, "max": 2}}},
         {"limits": {"minor_diameter": {"min": True, "max": 2.5}}},
         [("/limits/minor_diameter/min", "changed", "limit", 1, True),
          ("/limits/minor_diameter/max", "changed", "limit", 2, 2.5)]),
        ({"limits": {"minor_diameter": {"min": 1}}}, {"limits": {"minor_diameter": None}},
         [("/limits/minor_diameter", "changed", "limit", {"min": 1}, None)]),
        # what every reply has now, and what none has
        ({}, {"tables_version": "t"}, [("/tables_version", "not_kept", "version", None, "t")]),
        ({"tables_version": "t"}, {}, [("/tables_version", "removed", "version", "t", None)]),
        ({"a/b": 1}, {}, [("/a~1b", "no_longer_answered", "figure", 1, None)]),
        ({}, {"derivation": []}, [("/derivation", "added", "words", None, [])]),  # only where it is asked for
        # a tool comes and goes as a whole
        ({"drill": {}}, {"drill": None}, [("/drill", "changed", "tool", {}, None)]),
        # the same figures in other words are words
        ({"headline": {"depth": "to 0.84 in"}}, {"headline": {"depth": "0.84 in deep"}},
         [("/headline/depth", "changed", "words", "to 0.84 in", "0.84 in deep")]),
        ({"headline": {"depth": "0.84 in"}}, {"headline": {"depth": "0.85 in"}},
         [("/headline/depth", "changed", "depth", "0.84 in", "0.85 in")]),
    ],
)  # fmt: skip
def test_where_two_replies_differ(before, after, differences):
    found = Walk(texts_alone=False).differences(BY_DETAIL["full"], before, after)
    assert [(one.pointer, one.how, one.subject, one.before, one.after) for one in found] == differences


@every(("gone", "told"), [(99, 99), (100, 100), (101, 100)])
def test_a_hundred_fields_are_named_that_no_reply_has(gone, told):
    found = list(
        Walk(texts_alone=False).differences(BY_DETAIL["full"], {f"x{index}": 1 for index in range(gone)}, {"id": "A"})
    )
    assert [one.pointer for one in found] == ["/id", *(f"/x{index}" for index in range(told))]


@every(
    ("kept", "now", "causes"),
    [
        (("t1", "r1"), ("t1", "r1"), ()), (("t2", "r1"), ("t1", "r1"), ("table",)), ((None, "r1"), ("t1", "r1"), ()),
        (("t1", "r2"), ("t1", "r1"), ("rule",)), (("t2", "r2"), ("t1", "r1"), ("table", "rule")),
        (("t1", None), ("t1", "r1"), ("rule",)), ((None, "r2"), ("t1", "r1"), ("table", "rule")),
    ],
)  # fmt: skip
def test_what_of_the_service_may_have_changed(kept, now, causes):
    assert of_service(Versions(*kept), Versions(*now)) == causes


@every(
    ("same_request", "service", "differs", "explained"),
    [
        (True, (), True, []), (True, ("table",), True, [("table", True)]), (True, ("rule",), True, [("rule", True)]),
        (True, ("table", "rule"), True, [("table", False), ("rule", False)]),
        (False, (), True, [("request", True)]), (False, ("rule",), True, [("request", False), ("rule", False)]),
        # what is not told is never certain, and without a difference there is nothing to be certain of
        (None, (), True, [("request", False)]), (None, ("table",), True, [("request", False), ("table", False)]),
        (True, ("table",), False, [("table", False)]), (False, (), False, [("request", False)]),
    ],
)  # fmt: skip
def test_a_cause_is_certain_where_there_is_no_other(same_request, service, differs, explained):
    causes = told(Causes(same_request, service), Versions("t2", "r2"), Versions("t1", "r1"), differs=differs)
    assert [(one.cause, one.certain) for one in causes] == explained


@every(
    ("kept", "versions"),
    [(("t2", "r2"), [["t2", "t1"], ["r2", "r1"]]), ((None, "r2"), [["t1"], ["r2", "r1"]]),
     (("t2", None), [["t2", "t1"], ["r1"]])],
)  # fmt: skip
def test_a_cause_names_the_versions_before_and_now(kept, versions):
    causes = told(Causes(True, ("table", "rule")), Versions(*kept), Versions("t1", "r1"), differs=True)
    assert [re.findall(r"\b[tr]\d\b", one.text) for one in causes] == versions


@every(
    ("fields", "detail"),
    [
        (None, "full"), (["operations", "sources"], "full"), (["assumptions"], "full"), (["notice"], "full"),
        (["thread"], "figures"), (["drill"], "figures"), (["depths"], "figures"), (["limits"], "figures"),
        (["operations", "headline"], "routing"), (["thread", "notice"], "full"),
    ],
)  # fmt: skip
def test_a_kept_reply_tells_its_detail(fields, detail):
    assert Kept(None if fields is None else dict.fromkeys(fields), None, None).detail == detail


@every(
    ("reply", "unit"),
    [
        (None, None), ({}, None), ({"units": {"length": "in"}}, "in"), ({"units": {"length": "mm"}}, "mm"),
        ({"units": {"length": "ft"}}, None), ({"units": {"length": 1}}, None), ({"units": {}}, None),
        ({"headline": {"depth": "drill 21.3 mm deep"}}, "mm"), ({"headline": {"depth": "0.84 in, full thread"}}, "in"),
        ({"headline": {"depth": "through"}}, None), ({"headline": {"depth": "21 inches"}}, None),
        ({"headline": "21 mm"}, None), ({"units": {"length": "in"}, "headline": {"depth": "21 mm"}}, "in"),
    ],
)  # fmt: skip
def test_a_kept_reply_tells_its_unit(reply, unit):
    assert Kept(reply, None, None).unit == unit
