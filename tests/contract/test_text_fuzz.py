"""Whatever is written: texts and bodies are answered or refused with a coded error, never with another exception.

In process, without a server: callouts, quantities, tap markings, finishes and materials, and whole bodies go through
the reading of requests, the domain and the building of replies. The short run is seeded; the long run looks for
something new every time, and prints how many cases it judged.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import orjson
import pytest
from borewright.contract import audit_replies, faults, replies
from borewright.contract.requests import ALLOWANCE, DECODE, DRILL, HOLE_SPEC, TAP, THREAD
from borewright.contract.requests.audit import AUDIT
from borewright.core import errors, finishing, standards
from borewright.core.audit import audit
from borewright.core.errors import BorewrightError
from borewright.core.materials import part_material
from borewright.core.plan.specify import (
    allow_finish,
    decode_marking,
    recommend_drill,
    recommend_tap,
    resolve_thread,
    specify,
)
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

Body = dict[str, Any]

KNOWN_CODES = faults.CODES.keys() | errors.CODES.keys()

DESIGNATIONS = [entry.designation for entry in standards.catalogue()]
FINISHES = [f"{entry.specification} {entry.finish_class}" for entry in finishing.catalogue()]
MATERIALS = [material.name for material in part_material.catalogue()]
MARKINGS = ["1/2-13 NC HSS G H3", "M8x1.25 HSS G D5", "Rc 1/2", "M8 6H FORMING", "1/4-20 NC GH5 BOTT", "M10 ISO 2 LH"]
QUANTITIES = [
    "3/8 in",
    "12 mm",
    '1-1/4"',
    "0.3 mil",
    "8 um",
    "95 ksi",
    "12 N*m",
    "1/2 hp",
    "75 %",
    "-0.5 mil",
    "1e3 mm",
]

#: Pieces of callouts, finishes and markings, and what readers stumble over: digits that are none, signs, long runs.
PIECES = (
    *("M", "MJ", "UNC", "UNF", "UNS", "UNJC", "NPT", "NPTF", "G", "Rc", "Rp", "Tr", "ACME", "BSW", "STI", "H", "D"),
    *("-", "x", "×", "X", ".", "/", " ", "#", "(", ")", ",", ";", "-2B", "-6H", "2A", "LH", "RH", "P", "Ph", "L", "SE"),
    *("0", "1", "8", "1/2", "13", "½", "⅜", "1 1/2", ".164", "1.25", "10", "00", "99999999", "1e9", "1/0", "0/0", "-1"),
    *("²", "٣", "８", "Ⅷ", "①", "\u00a0", "\u200b", "\u202e", "\u0301", "é", "ß", "İ", "\x00", "\n", "\t", "🔩"),
    *("mm", "in", '"', "'", "″", "um", "µm", "μm", "%", "psi", "N*m", "HRC", "TYPE II", "CLASS 3", "Fe/Zn", "AMS"),
    *("inf", "nan", "NaN", "1_0", "+5", "{}", "{0}", "%s", "=1+1", "0" * 40, "9" * 60, "x" * 30, "- " * 20, "1/" * 20),
)  # fmt: skip


@st.composite
def spoilt(draw: st.DrawFn, words: list[str]) -> str:
    """A word of a list with up to three places changed."""
    word = draw(st.sampled_from(words))
    for _ in range(draw(st.integers(0, 3))):
        place, width = draw(st.integers(0, len(word))), draw(st.integers(0, 2))
        word = word[:place] + draw(st.sampled_from(PIECES)) + word[place + width :]
    return word


def mostly(right: list[Any], other: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """One of the right values in five of six cases, so that whole bodies get past their reading."""
    return st.integers(0, 5).flatmap(lambda chance: st.sampled_from(right) if chance else other)


SOUP = st.lists(st.sampled_from(PIECES), max_size=12).map("".join)


def texts(words: list[str]) -> st.SearchStrategy[str]:
    return spoilt(words) | SOUP | st.text(max_size=40)


CALLOUTS, FINISH_TEXTS, MATERIAL_TEXTS = texts(DESIGNATIONS), texts(FINISHES), texts(MATERIALS)
MARKING_TEXTS = texts(MARKINGS)
SCALARS = st.none() | st.booleans() | st.integers(-(10**20), 10**20) | st.floats(allow_nan=False, allow_infinity=False)
QUANTITY = mostly(
    [0.5, 1, 8, 16, 75, "3/8 in", "20 mm"], st.floats(-10, 500) | st.integers(-5, 300) | texts(QUANTITIES)
)
JSON = st.recursive(SCALARS | st.text(max_size=8), lambda inner: st.lists(inner, max_size=3) | st.dictionaries(
    st.text(max_size=6), inner, max_size=3), max_leaves=6)  # fmt: skip


def fields(**kinds: st.SearchStrategy[Any]) -> st.SearchStrategy[Body]:
    return st.fixed_dictionaries({}, optional=kinds)


RANGE = fields(min=QUANTITY, max=QUANTITY)
THREAD_FIELDS = fields(
    system=st.sampled_from(sorted({entry.system for entry in standards.catalogue()})) | SOUP,
    size=texts(["1/2", "#10", "8", "M8", "1 1/2"]) | st.integers(-2, 200) | st.floats(-1, 200),
    threads_per_inch=QUANTITY,
    pitch=QUANTITY,
    series=texts(["UNC", "UNF", "UN", "UNS", "coarse"]),
    starts=st.integers(-1, 12),
    lead=QUANTITY,
    hand=st.sampled_from(["left", "right", "LH"]),
    **{"class": texts(["2B", "3B", "6H", "2A", "4H5H"])},
)
THREADS = mostly(DESIGNATIONS, CALLOUTS | THREAD_FIELDS)
HOLES = [
    {"type": "blind", "full_thread_depth": "16 mm"},
    {"type": "through", "thickness": "0.75 in"},
    {"type": "blind", "full_thread_depth": "0.5 in", "drill_depth_limit": "50 mm", "point_angle": 140},
]
HOLE = mostly(
    HOLES,
    fields(
        type=st.sampled_from(["blind", "through"]),
        full_thread_depth=QUANTITY,
        thickness=QUANTITY,
        drill_depth_limit=QUANTITY,
        access_depth=QUANTITY,
        clearance_diameter=QUANTITY,
        point_angle=QUANTITY,
    ),
)
MATERIAL = mostly(
    MATERIALS,
    MATERIAL_TEXTS
    | fields(
        name=MATERIAL_TEXTS,
        group=st.sampled_from("PMKNSHX"),
        hardness=texts(["28 HRC", "300 HB", "90 HRB", "400 HV"]),
        tensile_strength=QUANTITY,
    ),
)
FINISH = mostly(
    FINISHES,
    FINISH_TEXTS
    | fields(
        specification=FINISH_TEXTS,
        thickness=QUANTITY | RANGE,
        growth_fraction=QUANTITY,
        heat_treat_growth=RANGE,
        masked=st.booleans(),
        reading=st.sampled_from(["asme", "iso"]),
        **{"class": SOUP},
    ),
)
SCREW = mostly(
    [{"grade": "8.8"}], fields(grade=texts(["8.8", "10.9", "SAE J429 grade 8"]), **{"class": texts(["6g", "2A", "3A"])})
)
MACHINE = fields(
    max_spindle_speed=QUANTITY,
    max_torque=QUANTITY,
    max_power=QUANTITY,
    tapping=st.sampled_from(["rigid", "floating"]),
)
STOCK = fields(
    drills=st.lists(texts(["27/64", "#7", "F", "6.8 mm"]), max_size=3), taps=st.lists(MARKING_TEXTS, max_size=3)
)
PLAN = fields(drill=texts(["27/64", "#7", "6.8 mm"]), tap=MARKING_TEXTS, drill_depth=QUANTITY, spindle_speed=QUANTITY)
EVERYTHING = {
    "material": MATERIAL,
    "finish": FINISH,
    "mating_screw": SCREW,
    "machine": MACHINE,
    "stock": STOCK,
    "method": st.sampled_from(["cut", "form"]),
    "objective": st.sampled_from(["chart", "least_torque"]),
    "percent_thread": QUANTITY | fields(target=QUANTITY, min=QUANTITY, max=QUANTITY),
    "length_of_engagement": QUANTITY,
    "safety_factor": QUANTITY,
    "unit_system": st.sampled_from(["inch", "metric"]),
    "explain": st.booleans(),
    "strict": st.booleans(),
}


@st.composite
def bodies(draw: st.DrawFn, needed: Body, optional: tuple[str, ...]) -> Body:
    """A request with a few fields of its kind, in every eighth case with something that is no part of it."""
    chosen = draw(st.lists(st.sampled_from(optional), max_size=3, unique=True))
    body = draw(st.fixed_dictionaries({**needed, **{name: EVERYTHING[name] for name in chosen}}))
    if not draw(st.integers(0, 7)):
        body[draw(st.sampled_from([*body, "size", ""]))] = draw(JSON)
    return body


def resolve(body: Body) -> Body:
    asked = THREAD.asked(body)
    return replies.thread_reply(resolve_thread(asked.request), asked)


def drill(body: Body) -> Body:
    asked = DRILL.asked(body)
    return replies.drill_reply(recommend_drill(asked.request), asked)


def finish(body: Body) -> Body:
    asked = ALLOWANCE.asked(body)
    return replies.allowance_reply(allow_finish(asked.request), asked)


def tap(body: Body) -> Body:
    asked = TAP.asked(body)
    return replies.tap_reply(recommend_tap(asked.request), asked)


def decode(body: Body) -> Body:
    asked = DECODE.asked(body)
    return replies.decode_reply(decode_marking(asked.request), asked)


def hole_spec(body: Body) -> Body:
    asked = HOLE_SPEC.asked(body)
    return replies.hole_spec_reply(specify(asked.request), asked)


def audited(body: Body) -> Body:
    asked = AUDIT.asked(body)
    return audit_replies.audit_reply(audit(asked.request), asked)


def with_quantity(text: str, place: int) -> Body:
    """A request that is right but for one quantity."""
    body: Body = {"thread": "1/2-13 UNC-2B", "hole": {"type": "blind", "full_thread_depth": 1}}
    into, name = (
        (body["hole"], "full_thread_depth"),
        (body, "percent_thread"),
        (body.setdefault("material", {"name": "4140"}), "tensile_strength"),
        (body.setdefault("machine", {}), "max_torque"),
        (body["machine"], "max_power"),
        (body.setdefault("finish", {}), "thickness"),
        (body["material"], "hardness"),
    )[place]
    into[name] = text
    return {key: value for key, value in body.items() if value}


CHOICES = ("material", "finish", "stock", "method", "unit_system", "explain")
DRILLING = (*CHOICES, "objective", "percent_thread", "length_of_engagement")
FULL = (*DRILLING, "mating_screw", "machine", "safety_factor", "strict")

#: Subject -> how a case is made, how it is answered, cases of the short and of the long run.
SUBJECTS: dict[str, tuple[st.SearchStrategy[Body], Callable[[Body], Body], int, int]] = {
    "callouts": (CALLOUTS.map(lambda text: {"thread": text}), resolve, 500, 60_000),
    "quantities": (st.builds(with_quantity, texts(QUANTITIES), st.integers(0, 6)), hole_spec, 300, 40_000),
    "markings": (MARKING_TEXTS.map(lambda text: {"marking": text}), decode, 400, 40_000),
    "finishes": (FINISH.map(lambda given: {"thread": "3/8-16 UNC-2B", "finish": given}), finish, 300, 30_000),
    "thread bodies": (bodies({"thread": THREADS}, ("unit_system", "length_of_engagement")), resolve, 150, 10_000),
    "drill bodies": (bodies({"thread": THREADS}, DRILLING), drill, 100, 8_000),
    "tap bodies": (bodies({"thread": THREADS, "hole": HOLE}, CHOICES), tap, 100, 8_000),
    "hole-spec bodies": (bodies({"thread": THREADS, "hole": HOLE}, FULL), hole_spec, 150, 8_000),
    "audit bodies": (bodies({"thread": THREADS, "hole": HOLE, "as_planned": PLAN}, FULL), audited, 500, 4_000),
}


def fuzz(subject: str, cases: int, *, seeded: bool) -> tuple[int, int]:
    """Judge about ``cases`` cases; returns how many were judged and how many of them were answered."""
    made, answer = SUBJECTS[subject][:2]
    counts = {"judged": 0, "answered": 0}

    @settings(
        max_examples=cases,
        derandomize=seeded,
        database=None,
        phases=[Phase.generate, Phase.shrink],
        suppress_health_check=list(HealthCheck),
    )
    @given(made)
    def judge(body: Body) -> None:
        counts["judged"] += 1
        try:
            orjson.dumps(answer(body))
        except BorewrightError as refusal:
            assert refusal.faults
            assert {fault.code for fault in refusal.faults} <= KNOWN_CODES
            orjson.dumps(
                [[fault.detail, fault.pointer, *fault.allowed, *fault.did_you_mean] for fault in refusal.faults]
            )
        else:
            counts["answered"] += 1

    judge()
    return counts["judged"], counts["answered"]


@pytest.mark.parametrize("subject", SUBJECTS)
def test_answered_or_refused_with_a_code(subject):
    judged, answered = fuzz(subject, SUBJECTS[subject][2], seeded=True)
    assert judged >= SUBJECTS[subject][2]
    assert answered, "nothing was ever answered: the cases only test refusals"


@pytest.mark.long
def test_long_fuzz_of_texts(capsys):
    judged = {}
    for subject, (_, _, _, cases) in SUBJECTS.items():
        judged[subject], answered = fuzz(subject, cases, seeded=False)
        with capsys.disabled():
            print(f"\n{subject}: {judged[subject]} cases judged, {answered} answered", end="", flush=True)
    with capsys.disabled():
        print("\ncases judged in all:", sum(judged.values()))
    assert sum(judged.values()) >= 200_000
