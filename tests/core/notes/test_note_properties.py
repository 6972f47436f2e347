"""What holds of every note: known threads read back in every spelling, no text raises, work grows with length only."""

from __future__ import annotations

import sys

import pytest
from borewright.core import callout, standards
from borewright.core.errors import BorewrightError
from borewright.core.notes import MAX_LENGTH, NoteRequest, grammar, read
from borewright.core.notes.characters import plain_copy
from borewright.core.notes.reading import MOST_TOKENS, Work, read_copy
from borewright.core.rounding import half_even
from every import every
from hypothesis import given, settings
from hypothesis import strategies as st

ENTRIES = standards.catalogue()
#: Spellings of one depth; the number is put in.
DEPTHS = (
    "{thread} ↧{n}",
    "{thread} ↧ {n} MIN",
    "{thread} X {n} DEEP",
    "{thread} x {n} DP",
    "{thread} {n} DEEP",
    "{thread} DEPTH {n}",
    "{thread} {n} MIN FULL THD",
    "{thread} - {n} tief",
    "{thread} Gewindetiefe {n}",
    "{thread} prof. {n}",
    "{thread} prof. utile {n}",
    "{thread} profundidad {n}",
    "{thread} 深さ{n}",
    "{thread} \\U+21A7{n}",
    "{thread} ⊥ {n}",
)
THROUGH = (
    "{thread} THRU",
    "{thread} THRU ALL",
    "{thread} durchgehend",
    "{thread} débouchant",
    "{thread} passante",
    "{thread} pasante",
    "{thread} 通し",
    "{thread}",
)
COUNTS = (
    "{c}X {hole}",
    "{c} X {hole}",
    "({c}) {hole}",
    "{hole}, {c} PLACES",
    "{hole}\n{c} HOLES",
    "{hole} ({c} PLCS)",
    "{hole} - {c} REQ'D",
    "QTY {c}, {hole}",
)
PLACES = (
    "{hole}",
    "{hole} EQ SP ON Ø{p} B.C.",
    "{hole} NEAR SIDE",
    "{hole}, {p} APART",
    "{hole} ON {p} PCD",
    "{hole} AS SHOWN",
)


def designation(text):
    return standards.resolve(callout.read(text)).designation


@given(
    entry=st.sampled_from(ENTRIES),
    depth=st.sampled_from((*DEPTHS, *THROUGH)),
    counting=st.sampled_from(COUNTS),
    place=st.sampled_from(PLACES),
    count=st.integers(2, 40),
)
@settings(max_examples=150)
def test_every_thread_reads_back_in_every_spelling(entry, depth, counting, place, count):
    number = half_even(entry.nominal_diameter + entry.pitch, 4)
    hole = place.format(
        hole=depth.format(thread=entry.designation, n=number), p=half_even(20 * entry.nominal_diameter, 2)
    )
    note = counting.format(hole=hole, c=count)
    reading = read(NoteRequest(note, entry.unit))
    found = reading.holes[0]
    assert (len(reading.holes), reading.unread, reading.questions) == (1, (), ())
    assert designation(found.thread) == designation(entry.designation)
    assert found.count == count
    assert (found.kind, found.full_thread_depth) == (("blind", number) if depth in DEPTHS else ("through", None))


PIECES = (
    "4X ",
    "M6",
    "1/4-20",
    " UNC",
    "-2B",
    "Ø",
    ".201",
    "↧",
    "THRU",
    " DEEP",
    "⌵",
    "90°",
    " X ",
    "\n",
    "; ",
    " AND ",
    "A: ",
    "%%c",
    "\\P",
    "{\\fGDT;n}",
    "(",
    ")",
    "[",
    "|",
    "⌖",
    "12",
    "TAP",
    "DRILL",
    "#7",
    "l",
    "O",
    "тМ",
    "深さ",
    "±.005",
    "2A",
)


@given(st.one_of(st.text(max_size=60), st.lists(st.sampled_from(PIECES), max_size=25).map("".join)))
@settings(max_examples=200)
def test_no_text_raises_and_every_character_is_accounted_for(note):
    try:
        reading = read(NoteRequest(note))
    except BorewrightError as error:
        assert (error.code, note.strip()) == ("note_empty", "")
        return
    spans = [span for hole in reading.holes for span in hole.read_from]
    covered = {place for span in (*spans, *reading.not_holes, *reading.unread) for place in range(span.start, span.end)}
    assert [note[place] for place in range(len(note)) if place not in covered and note[place].strip()] == []
    assert reading.holes or reading.questions


HOSTILE = (
    "x",
    "9",
    "(",
    "1/4-",
    "1/4-2O ",
    "M6 ",
    "M6\n",
    "M10x1.3 ",
    "THRLI ",
    "a b c ",
    "DEEP ",
    ".5 DEEP ",
    "1 ",
    "1-1/2-",
    "{\\f",
    "\\U+2300",
    "%%c",
    "Ø",
    "深",
    "DO NOT BREAK ",
    "10-32 UNF-2B; ",
    "(2) ",
    ".5 [",
    ".5±",
    "A: ",
    "1 x ",
    "|",
    "SSSS0000 ",
    "DEBURR\n",
    "DEBURR ALL, ",
    "LIMITS APPLY AFTER PLATING, ",
    "FINISH PLATING ZINK QQ\n",
    "M8 - 16; DEBURR\nTAP; PLATED STEEL ASTM B6 EQ SP, ",
    "4 PLC ",
    "O.5 ",
    "\\/",
    "±\n",
    "DRILL AT ",
    "TAP DRILL .70 MAX DEPT ",
    "M8 NOT A THRO ",
    "?3 ",
)


def cost(note):
    """Tokens cut and rules tried for a note, and the functions called to read it."""
    calls = 0

    def count(_frame, event, _argument):
        nonlocal calls
        calls += event in ("call", "c_call")

    sys.setprofile(count)
    try:
        reading = read(NoteRequest(note))
    except BorewrightError as error:
        assert error.code == "note_too_many_holes"
        return 0, 0, calls
    finally:
        sys.setprofile(None)
    return reading.tokens, reading.steps, calls


@every("piece", HOSTILE, ids=repr)
def test_work_is_bounded(piece):
    """A note has at most 1,000 tokens, and 1,500 are cut again for its repairs and general lines; some rules are tried
    for each, and what is called grows with the length and no more.
    """
    for text in ("FINISH PLATING ZINC ASTM B633", piece * 20):  # what is loaded and kept once is no work of the note
        read(NoteRequest(text))
    whole = cost((piece * MAX_LENGTH)[:MAX_LENGTH])
    tokens, steps, calls = whole
    assert Work().left == MOST_TOKENS == 1_000 + 1_500
    assert tokens <= MOST_TOKENS + 100
    assert steps <= 4 * MOST_TOKENS
    assert calls <= 150_000
    assert calls <= 6 * cost((piece * MAX_LENGTH)[: MAX_LENGTH // 4])[2] + 20_000


@every(("text", "tokens"), [("THRU", 1), ("M8 THRU", 2), ("4X M8 THRU", 4), ("QV QV", 2)])
def test_work_is_counted(text, tokens):
    """Each token that is cut, and each rule that is tried: at least the one that reads."""
    work = Work()
    reading = read_copy(text, work)
    assert work.tokens == tokens
    assert work.left == MOST_TOKENS - tokens
    assert work.steps >= len(reading.elements)


@every("rule", grammar().rules, ids=lambda rule: rule.example)
def test_near_misses_of_a_rule_cost_no_more(rule):
    near = f"{rule.example[:-1]}, {rule.example[1:]} "
    try:
        reading = read(NoteRequest((near * MAX_LENGTH)[:MAX_LENGTH]))
    except BorewrightError as error:
        assert error.code == "note_too_many_holes"
    else:
        assert reading.tokens <= MOST_TOKENS + 100
        assert reading.steps <= 4 * MOST_TOKENS


@pytest.mark.parametrize(
    ("note", "code"), [("", "note_empty"), (" \n ", "note_empty"), ("M6 " * 1334, "note_too_long")]
)
def test_empty_and_endless_notes_are_refused(note, code):
    with pytest.raises(BorewrightError) as refused:
        read(NoteRequest(note))
    assert refused.value.code == code


@every("rule", grammar().rules, ids=lambda rule: f"{rule.name} {rule.reads}: {rule.form}")
def test_every_rule_reads_its_example(rule):
    before = (
        "M6 x 12 "
        if rule.after == {"depth", "thread_depth", "drill_depth"}
        else "M6 "
        if rule.after > {"start"}
        else ""
    )
    text = plain_copy(rule.example if rule.example.startswith(("M", "F")) else before + rule.example).text
    reading = read_copy(text, Work())
    found = {element.reads for element in reading.elements}
    pointed = {"frame", "elsewhere", "elsewhere_note"}
    assert rule.reads in found or (rule.reads in pointed and reading.elsewhere)
