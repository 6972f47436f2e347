"""The rules of hole notes, in the order in which they are tried. Each is told with a text that it reads."""

from __future__ import annotations

from .grammar import START, Rule

_PART = "thread|diameter|numbered|drill|tap|counterbore|countersink|letter_word|blind|thru|fraction"
_AFTER_PART = frozenset({"thread", "drill", "counterbore", "class", "hand", "tap", "countersink"})
_AFTER_DEPTH = frozenset({"depth", "thread_depth", "drill_depth"})

_COUNT = (
    Rule("C4", "two_counts", "n:whole places one_side and|slash|comma m:whole places? one_side?", "2 HOLES NS & 2 FS"),
    Rule("C1", "count", "n:whole counting", "4X Ø.201"),
    Rule("C7", "count", f"n:whole by >{_PART}|places|letter", "4 x M6"),
    Rule("C2", "count", "open n:whole by|counting|places|holes? places? close", "(4X)"),
    Rule("C2", "count", "n:bracketed_whole places?", "(2) HOLES"),
    Rule("C2", "count", "n:whole places places? typical?", "4 PLCS"),
    Rule("C2", "count", "n:whole required", "3 REQ'D"),
    Rule("C2", "count", "quantity point|colon|equals? n:whole|bracketed_whole places?", "QTY 4"),
    Rule("C2", "count", "number_of n:whole places", "N. 4 fori"),
    Rule("C8", "count", "n:whole >spaced", "6 EQ SP"),
    Rule("C11", "count", "n:whole dash >metric|thread", "4-M6", frozenset({START})),
    Rule("C5", "typical", "typical", "TYP"),
)
_THREAD_LENGTHS = (
    Rule("Y9", "turns", "by|comma|dash? limit? n:whole full_turns limit?", "8 FULL THREADS MIN"),
    Rule("Y7", "thread_depth", "depth_sign limit? s:size limit? full deep? limit?", "↧ .25 MIN FULL THREAD"),
    Rule("Y7", "thread_depth", "by|dash? limit? s:size limit? full deep? limit?", ".50 MIN FULL THD"),
    Rule(
        "Y7", "thread_depth", "by|dash? full deep? equals|colon? limit? s:size limit? deep? limit?", "FULL THD .50 DEEP"
    ),
    Rule("Y1", "thread_depth", "deep|deep_first full equals|colon? limit? s:size limit?", "DEPTH FULL THD .50"),
    Rule("D3", "drill", "drill s:size >depth_word >size !places|required|full|limit", "Kernloch 8,5 tief 28"),
    Rule("D3", "drill", "drill s:size >depth_word >limit? >size >limit !full", "DRILL 6.8 DEPTH 20 MIN"),
    Rule("D3", "drill", "drill s:size >depth_word >limit >size !full", "DRILL 6.8 DEPTH MIN 20"),
    Rule("Y1", "drill_depth", "drill limit? s:size limit? deep limit?", "TAP DRILL .70 MAX DEPTH"),
    Rule("Y1", "drill_depth", "drill deep|deep_first|depth_sign limit? s:size limit?", "DRILL DEPTH .75"),
    Rule("Y1", "drill_depth", "drill_depth equals|colon? limit? s:size limit?", "Bohrtiefe 16"),
    Rule("Y1", "drill_depth", "s:size limit? drill_depth limit?", ".75 DRILL DEPTH"),
    Rule("P7", "thickness", "s:size thickness", ".375 THK"),
    Rule("P7", "thickness", "thickness equals|colon? s:size", "Dicke 3"),
    Rule("P7", "thickness", "t_word equals s:size", "t=3"),
)
_RECESS = (
    Rule("K1", "chamfer", "chamfer d:size? by|to? angle?", "CHAM 1 × 45°"),
    Rule("K2", "countersink", "d:size by|to a:angle countersink", ".28 X 90° CSK"),
    Rule("K1", "chamfer", "d:size by angle chamfer?", "1 × 45°"),
    Rule("L1", "place", "angle apart", "45° APART"),
    Rule("G3", "countersink", "countersink o:size over_major|major by|to|comma? a:angle?", "CSK .03 OVER MAJOR DIA"),
    Rule(
        "G3",
        "countersink",
        "countersink by|to|comma? a:angle by|to|comma? diameter? o:size? over_major|major",
        "CSK 90° TO MAJOR DIA",
    ),
    Rule("G3", "countersink", "countersink major by|to|comma? a:angle?", "CSK TO MAJOR DIA X 90°"),
    Rule("G3", "countersink", "a:angle countersink by|to|comma? major", "90° CSK TO MAJOR DIA"),
    Rule(
        "K1",
        "countersink",
        "countersink to|colon? diameter? d:size diameter_word? by|to|slash|comma|dash? a:angle",
        "⌵ Ø.21 X 90°",
    ),
    Rule(
        "K2",
        "countersink",
        "countersink a:angle by|to|slash|comma? to? diameter? d:size diameter_word?",
        "CSK 90° TO Ø.28",
    ),
    Rule(
        "K2",
        "countersink",
        "a:angle by|to? countersink by|to|slash|comma? to? diameter? d:size diameter_word?",
        "90° CSK TO .28 DIA",
    ),
    Rule("K2", "countersink", "a:angle by|to diameter d:size countersink?", "90° X Ø.28"),
    Rule("K2", "countersink", "diameter d:size by|to|slash a:angle countersink?", "Ø9 × 90°"),
    Rule("K2", "countersink", "d:size diameter_word by|to|comma? a:angle countersink?", ".28 DIA X 90°"),
    Rule("K1", "countersink", "countersink a:angle", "CSK 90°"),
    Rule("K1", "countersink", "a:angle countersink", "90° CSK"),
    Rule("K1", "countersink", "countersink to|colon? diameter d:size", "⌵ Ø.28"),
    Rule("K1", "countersink", "countersink to|colon? d:size diameter_word? !deep", "CSK .28 DIA"),
    Rule("K1", "countersink", "diameter d:size countersink !diameter !angle", "Ø.28 CSK"),
    Rule("K1", "countersink", "d:size diameter_word countersink !diameter !size !angle", ".28 DIA CSK"),
    Rule("K1", "countersink", "countersink", "CSK"),
    Rule("K4", "counterbore", "counterbore spotface? to|colon? diameter d:size", "⌴ Ø.50"),
    Rule("K4", "counterbore", "counterbore spotface? to|colon? d:size diameter_word", "C'BORE .50 DIA"),
    Rule("K4", "counterbore", "counterbore spotface? to|colon? d:size !deep !limit", "CBORE .50"),
    Rule("K4", "counterbore", "diameter d:size counterbore", "Ø.50 CBORE"),
    Rule("K4", "counterbore", "d:size diameter_word? counterbore", ".50 DIA CBORE"),
    Rule("K4", "counterbore", "counterbore spotface?", "SPOTFACE"),
    Rule("K4", "other", "counterdrill diameter? size? diameter_word? by? angle?", "CDRILL Ø.25"),
)
_PLACE = (
    Rule("L1", "place", "spaced comma? on diameter? size diameter_word? circle?", "EQ SP ON Ø2.750 B.C."),
    Rule("L1", "place", "spaced comma? diameter? size diameter_word? circle", "EQ SP 2.750 B.C."),
    Rule("L1", "place", "spaced", "EQ SP"),
    Rule("L1", "place", "on? diameter? size diameter_word? circle", "5.000 B.C."),
    Rule("L1", "place", "on? circle equals|colon? diameter? size", "LK Ø80"),
    Rule("L1", "place", "on diameter size diameter_word?", "ON Ø4.000"),
    Rule("L1", "place", "size apart|from_edge", ".50 APART"),
    Rule("L1", "place", "apart|as_shown|circle", "AS SHOWN"),
    Rule("K6", "both_sides", "both_sides", "BOTH SIDES"),
    Rule("K6", "one_side", "one_side", "NEAR SIDE"),
    Rule("X2", "frame", "frame", "⌖ Ø0.2 Ⓜ A B C"),
    Rule("X2", "frame", "bar >frame", "|⌖|Ø0.2|A|"),
    Rule("X2", "frame", "square_to size >letter|bar|other", "⊥ 0.1 B"),
)
_DRILL = (
    Rule("D3", "pilot", "pilot diameter? s:size|numbered bracketed? diameter_word? drill?", "PILOT DRILL .125"),
    Rule("D3", "pilot", "diameter? s:size|numbered bracketed? diameter_word? pilot", ".125 PILOT"),
    Rule("D3", "ream", "ream diameter? s:size|numbered diameter_word?", "REAM .204"),
    Rule("D3", "ream", "diameter? s:size|numbered diameter_word? ream", ".204 REAM"),
    Rule("D3", "tap_drill_d", "tap_drill_d equals|colon? diameter? s:size|numbered", "TDD .201"),
    Rule("D3", "drill", "drill letter_word s:letter bracketed? diameter_word?", "DRILL LETTER F"),
    Rule("D3", "drill", "letter_word s:letter bracketed? drill?", "LETTER F DRILL"),
    Rule("D3", "drill", "s:letter bracketed? drill", "F DRILL"),
    Rule("D3", "drill", "drill s:letter bracketed? !size", "DRILL F"),
    Rule(
        "D3",
        "drill",
        "drill equals|colon|diameter_word? diameter? s:size|numbered bracketed? diameter_word?",
        "DRILL NO. 21 (.159)",
    ),
    Rule("D3", "drill", "diameter? s:size|numbered bracketed? diameter_word? drill !diameter !numbered", "#7 DRILL"),
    Rule("D1", "drill", "diameter s:size bracketed?", "Ø.201"),
    Rule("D1", "drill", "diameter_word equals? s:size bracketed?", "DIA .201"),
    Rule("D1", "drill", "s:size bracketed? diameter_word", ".201 DIA"),
    Rule("D1", "drill", "s:size diameter !size", "6.8Ø"),
    Rule("Y5", "drill_and_tap", "drill joining|slash|and? tap", "DRILL AND TAP"),
    Rule("D3", "drill_word", "drill", "DRILL"),
)
_THREAD = (
    Rule("N3", "clearance", "clearance", "CLEARANCE FOR"),
    Rule("N3", "not_tapped", "not_tapped", "DOWEL"),
    Rule("N2", "long", "by? size long", "x 40 LG"),
    Rule("N2", "long", "long size", "LG 40"),
    Rule("N2", "long", "screw", "SHCS"),
    Rule("H1", "thread", "thread", "1/4-20 UNC-2B"),
    Rule("H2", "class", "class_word equals|colon? n:whole l:letter", "CLASS 3B"),
    Rule("H2", "class", "class_word equals|colon? n:whole", "CLASS 2"),
    Rule("H6", "left_hand", "open? left_hand close?", "LH"),
    Rule("H6", "right_hand", "open? right_hand close?", "RH"),
    Rule("H4", "size_and_tap", "s:size|numbered pipe_tap", "1/4 PIPE TAP"),
    Rule("H4", "size_and_tap", "s:size|numbered tap !size", "1/4 TAP"),
    Rule("H4", "size_and_tap", "s:numbered|fraction tap >by? >limit? >size >deep|full|limit", "1/2 TAP .75 DEEP"),
    Rule("H4", "size_and_tap", "tap s:numbered|fraction !deep !limit !full", "TAP 1/4"),
    Rule("H4", "pipe_tap", "pipe_tap", "PIPE TAP"),
)
_EXTENT = (
    Rule("Y6", "to_bottom", "to_bottom", "TAP TO BOTTOM"),
    Rule("Y6", "bottoming", "bottoming", "BOTTOMING TAP"),
    Rule("P1", "thru", "thru", "THRU ALL"),
    Rule("P6", "blind", "blind", "DO NOT BREAK THRU"),
    Rule("T3", "range_depth", "depth_sign|deep|deep_first|by n:size glued_dash m:size deep?", "↧ 12-14"),
    Rule("T3", "range_depth", "n:size glued_dash m:size deep", "12-14 DEEP"),
    Rule("T3", "depth", "depth_sign equals? limit? s:size limit? deep?", "↧ .50 MIN"),
    Rule("T3", "depth", "square_to s:size", "⊥ 12"),
    Rule("Y12", "depth", "by|dash? limit? s:size limit? deep limit?", "X .75 DP"),
    Rule("Y12", "depth", "deep|deep_first equals|colon? limit? s:size limit?", "prof. 12"),
    Rule("Y12", "depth", "by|dash? s:size deep_first !size !limit !on", "16 profondeur"),
    Rule("Y10", "hole_depth", "slash s:size", "M10×25/30", _AFTER_DEPTH),
    Rule("H9", "depth", "by limit? s:size limit? !places !required", "M10x1x20", _AFTER_PART),
    Rule("Y11", "depth", "spaced_dash limit? s:size limit? !places !required !counting", "M8 - 16", _AFTER_PART),
    Rule("T3", "depth_without_number", "depth_sign|deep|deep_first", "↧"),
)
_REST = (
    Rule("X1", "elsewhere_note", "elsewhere_note size? letter?", "SEE NOTE 3"),
    Rule("X1", "elsewhere", "elsewhere", "MATCH DRILL AT ASSY"),
    Rule("G4", "before_finish", "dimensions? unknown? before_finish", "DIMENSIONS APPLY BEFORE PLATING"),
    Rule("G4", "after_finish", "dimensions? unknown? after_finish", "LIMITS APPLY AFTER PLATING"),
    Rule("G5", "unit_mm", "dimensions? unit_mm", "DIMENSIONS IN MILLIMETERS"),
    Rule("G5", "unit_in", "dimensions? unit_in", "DIMENSIONS IN INCHES"),
    Rule("G2", "unless", "unless", "UNLESS OTHERWISE SPECIFIED"),
    Rule("G4", "mask", "mask", "MASK THREADS"),
    Rule("G5", "deburr", "deburr", "DEBURR"),
    Rule("D3", "other", "core_hole|bore", "CORED"),
    Rule("U4", "reference", "bracketed reference?", "(5.1)"),
    Rule("U4", "reference", "reference", "REF"),
    Rule("C7", "bare_count", "n:whole >thread", "4 M6", frozenset({START})),
    Rule("H1", "tap", "tap|thread_word", "TAP"),
    Rule("C2", "hole_word", "hole_word|places", "HOLE"),
    Rule("M1", "joining", "joining|comma|semicolon|colon|point|slash|dash|and|by|to|open|close|newline|equals", "&"),
)

#: Every rule, in the order in which it is tried.
RULES: tuple[Rule, ...] = (
    *_COUNT, *_THREAD_LENGTHS, *_RECESS, *_PLACE, *_DRILL, *_THREAD, *_EXTENT, *_REST,
)  # fmt: skip
