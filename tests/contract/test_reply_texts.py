"""A whole reply from its texts: its own fields, then units, notice, and the notes of all its parts in their order."""

from __future__ import annotations

from decimal import Decimal

import orjson
from borewright.contract.sections.hole_spec import HoleSpecReply
from borewright.contract.sections.reply import NOTICE, reply_texts
from borewright.contract.sections.section_notes import SectionNotes
from borewright.contract.sections.section_text import pieces
from borewright.contract.sections.thread import ThreadReply
from borewright.contract.unit_view import view
from borewright.core import callout, standards
from borewright.core.model import Hole, Length, MaterialInput, Notes, Source, Step
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest

M8 = standards.resolve(callout.read("M8"))


def _notes(name, prefix):
    step = Step(f"{name}.size", "a + b", {"a": Decimal(1), "b": Decimal(2)}, Decimal(3), "mm", "the book")
    source = Source(f"{name}.size", "the book", "2nd ed.", "p. 1", "published")
    return SectionNotes(
        Notes(assumptions=(f"{name} is taken", "both say so"), sources=(source,), steps=(step,)), prefix
    )


def _reply(schema, record, asked=None, **given):
    return orjson.loads(b"".join(pieces(reply_texts(schema, record, view("mm", asked), **given))))


def test_notes_come_in_their_order_each_once_under_their_place():
    first, last = _notes("one", "drill."), _notes("two", "")
    reply = _reply(ThreadReply, M8, before=(first,), after=(last,), explain=True)
    assert reply["assumptions"][:2] == ["one is taken", "both say so"]
    assert reply["assumptions"][-1] == "two is taken"
    assert reply["assumptions"].count("both say so") == 1
    sources = [one for one in reply["sources"] if one["document"] == "the book"]
    assert sources == [
        {"for": place, "document": "the book", "edition": "2nd ed.", "locator": "p. 1", "status": "published"}
        for place in ("drill.one.size", "two.size")
    ]
    assert [reply["derivation"][end]["quantity"] for end in (0, -1)] == ["drill.one.size", "two.size"]
    assert "derivation" not in _reply(ThreadReply, M8, before=(first,), after=(last,))


def test_units_of_a_reply_are_those_that_are_asked_for():
    for asked, length, torque in ((None, "mm", "N*m"), ("in", "in", "lbf*in"), ("mm", "mm", "N*m")):
        reply = _reply(ThreadReply, M8, asked)
        assert (reply["units"]["length"], reply["units"]["torque"], reply["notice"]) == (length, torque, NOTICE)
        major = reply["basic"]["major_diameter"]
        assert major == (8 if length == "mm" else round(8 / 25.4, 7))


def test_each_part_of_a_hole_brings_its_notes():
    hole = Hole("through", thickness=Length(Decimal(12), "mm"))
    spec = specify(HoleSpecRequest(callout.read("M8"), hole, material=MaterialInput("6061-T6")))
    reply = _reply(HoleSpecReply, spec, after=(SectionNotes(spec.notes, ""),), explain=True)
    assert {"thread", "drill", "tap", "cutting_data", "material"} <= {
        one["for"].partition(".")[0] for one in reply["sources"]
    }
    assert {"drill", "tap", "cutting_data"} <= {one["quantity"].partition(".")[0] for one in reply["derivation"]}
    assert list(reply)[-1] == "derivation"
