"""Requests that cross the catalogue with classes, mates, materials, finishes, depths and options, and their answers.

Every request is drawn from a seed, so that one that fails can be asked again: ``python combinations.py SEED COUNT``.
"""

from __future__ import annotations

import json
import random
import sys
import traceback
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from borewright import tables
from borewright.contract import audit_replies, replies
from borewright.contract.requests import ALLOWANCE, DRILL, HOLE_SPEC, TAP, THREAD
from borewright.contract.requests.audit import AUDIT
from borewright.core import standards
from borewright.core.audit import audit
from borewright.core.errors import BorewrightError
from borewright.core.model import CatalogueEntry
from borewright.core.plan import specify

Body = dict[str, Any]

BY_SYSTEM: Mapping[str, tuple[CatalogueEntry, ...]] = {
    system: tuple(entry for entry in standards.catalogue() if entry.system == system)
    for system in standards.systems.NAMES
}
FOREIGN_CLASSES = ("2A", "3B", "6H", "6G", "2G", "zzz", "", "5H", "4H5H", "medium")
MATES = (
    "1A", "2A", "3A", "6g", "4g6g", "6h", "8g", "6az", "2G", "3G", "4G", "5G", "2C", "7e", "8e", "8c", "A", "B",
    "close", "medium", "free", "normal", "zzz", "2B", "6H", "4h",
)  # fmt: skip
HARDNESS = ("80 HB", "200 HB", "320 HB", "28 HRC", "38 HRC", "45 HRC", "52 HRC", "62 HRC", "90 HRB", "450 HV", "HRC 5")
STRENGTHS = ("90 MPa", "450 MPa", "1000 MPa", "1600 MPa", "60 ksi", "200 ksi", 500)
PLAIN_MATERIALS = ("PTFE", "4140 at 45 HRC", "acetal", "wood", "", "18 HRC")
FREE_FINISHES = (
    "hot-dip galvanized ASTM F2329", "ISO 10684", "zinc 0.0005 in", "nickel 10 um +/- 2", "anodize", "black oxide",
    "zzz",
)  # fmt: skip
DIAMETERS_DEEP = (0.01, 0.2, 0.5, 1, 1.5, 2, 3, 5, 9, 40)


def _names(table: str, *columns: str) -> tuple[str, ...]:
    rows = tables.load(table).rows
    return tuple(dict.fromkeys(" ".join(row[name] for name in columns if row[name]).strip() for row in rows))


MATERIALS = (
    *_names("material_families", "name"),
    *_names("material_names", "name"),
    *_names("materials", "name"),
    *_names("materials", "alloy", "condition"),
    *PLAIN_MATERIALS,
)
FINISHES = (*_names("finishes", "specification", "finish_class"), *FREE_FINISHES)
GRADES = (*_names("screw_grades", "standard", "grade"), *_names("screw_grades", "grade"), "zzz")


def hole_spec(seed: int) -> Body:
    """A body of POST /v1/hole-specs; the systems take turns."""
    draw = random.Random(seed)
    systems = [system for system, entries in BY_SYSTEM.items() if entries]
    entry = draw.choice(BY_SYSTEM[systems[seed % len(systems)]])
    inch = entry.unit == "in"
    unit = draw.choice((None, None, "inch", "metric"))
    scale = float(entry.nominal_diameter) * _to(unit, inch=inch)
    body: Body = {"thread": _thread(draw, entry), "hole": _hole(draw, scale)}
    if unit is not None:
        body["unit_system"] = unit
    for name, value in _options(draw, scale).items():
        body[name] = value
    return body


def _to(unit: str | None, *, inch: bool) -> float:
    if unit is None or (unit == "inch") == inch:
        return 1.0
    return 25.4 if inch else 1 / 25.4


def _thread(draw: random.Random, entry: CatalogueEntry) -> object:
    if draw.random() < 0.4:
        return entry.designation + draw.choice(("", "", " LH", " THRU"))
    thread: Body = {"system": entry.system, "size": entry.size}
    if entry.threads_per_inch is not None:
        thread["threads_per_inch"] = float(entry.threads_per_inch)
    elif entry.system != "british_association":
        thread["pitch"] = f"{entry.pitch} {entry.unit}"
    known = entry.classes or ("",)
    chosen = draw.choice(known) if draw.random() < 0.9 else draw.choice(FOREIGN_CLASSES)
    if chosen:
        thread["class"] = chosen
    if draw.random() < 0.1:
        thread["hand"] = "left"
    return thread


def _hole(draw: random.Random, scale: float) -> Body:
    kind = draw.choice(("blind", "through"))
    hole: Body = {"type": kind}
    depth = round(scale * draw.choice(DIAMETERS_DEEP) * draw.uniform(0.8, 1.2), 4) or 0.001
    hole["full_thread_depth" if kind == "blind" else "thickness"] = depth
    if draw.random() < 0.2:
        hole["thickness" if kind == "blind" else "full_thread_depth"] = round(depth * draw.uniform(0.5, 3), 4) or 0.001
    for name, least, most in (("drill_depth_limit", 1, 3), ("access_depth", 0.1, 8), ("clearance_diameter", 0.5, 4)):
        if draw.random() < 0.08:
            hole[name] = round(max(depth, scale) * draw.uniform(least, most), 4) or 0.001
    if draw.random() < 0.2:
        hole["point_angle"] = draw.choice((60, 90, 118, 135, 140, 180))
    if draw.random() < 0.15:
        hole["run_out"] = draw.choice(("chamfer", "din_76_1", "bs_1936"))
    return hole


def _options(draw: random.Random, scale: float) -> Body:
    made: dict[str, tuple[float, Callable[[], object]]] = {
        "material": (0.85, lambda: _material(draw)),
        "finish": (0.5, lambda: _finish(draw)),
        "mating_screw": (0.4, lambda: _screw(draw)),
        "method": (0.3, lambda: draw.choice(("cut", "form"))),
        "objective": (0.4, lambda: draw.choice(("chart", "least_torque", "acceptance"))),
        "percent_thread": (0.15, lambda: _percent(draw)),
        "drill_series": (0.1, lambda: [draw.choice(("fractional", "number", "letter", "metric"))]),
        "length_of_engagement": (0.1, lambda: round(scale * draw.uniform(0.1, 4), 4) or 0.001),
        "stock": (0.1, lambda: _stock(draw)),
        "machine": (0.25, lambda: _machine(draw, scale)),
        "safety_factor": (0.1, lambda: draw.choice((1, 1.5, 4))),
        "strict": (0.05, lambda: True),
        "tap_limits": (0.2, lambda: draw.choice(("inch_h", "metric_d", "iso_class"))),
        "edition": (0.15, lambda: draw.choice(("2019", "1989"))),
        "explain": (0.1, lambda: True),
    }
    return {name: make() for name, (share, make) in made.items() if draw.random() < share}


def _material(draw: random.Random) -> object:
    if draw.random() < 0.6:
        return draw.choice(MATERIALS)
    made: Body = {"name": draw.choice(MATERIALS)} if draw.random() < 0.7 else {"group": draw.choice("PMKNSH")}
    if draw.random() < 0.6:
        made["hardness"] = draw.choice(HARDNESS)
    if draw.random() < 0.25:
        made["tensile_strength"] = draw.choice(STRENGTHS)
    return made


def _finish(draw: random.Random) -> object:
    if draw.random() < 0.75:
        return draw.choice(FINISHES)
    made: Body = {"thickness": draw.choice(("5 um", "0.0005 in", {"min": "8 um", "max": "20 um"}, "1 mm", 0.001))}
    if draw.random() < 0.3:
        made["specification"] = draw.choice(FINISHES)
    if draw.random() < 0.3:
        made["growth_fraction"] = draw.choice((0, 0.5, 1, "50 %"))
    if draw.random() < 0.2:
        made["masked"] = True
    if draw.random() < 0.2:
        made["heat_treat_growth"] = {"min": "-5 um", "max": "10 um"}
    if draw.random() < 0.2:
        made["reading"] = draw.choice(("asme", "iso"))
    return made


def _screw(draw: random.Random) -> Body:
    screw: Body = {}
    if draw.random() < 0.7:
        screw["class"] = draw.choice(MATES)
    if draw.random() < 0.7 or not screw:
        screw["grade"] = draw.choice(GRADES)
    return screw


def _percent(draw: random.Random) -> object:
    return draw.choice((0.75, 30, 60, 75, 83, 100, {"min": 50, "max": 80}, {"target": 70, "min": 65, "max": 75}))


def _stock(draw: random.Random) -> Body:
    drills = draw.choice((["27/64", "#7", "6.8 mm", "Z"], ["zzz"], []))
    return {"drills": drills, "taps": draw.choice((["H3", "H5"], ["D5"], ["1/4-20 NC HSS G H3", "M8x1.25 HSS D5"], []))}


def _machine(draw: random.Random, scale: float) -> Body:
    machine: Body = {"tapping": draw.choice(("rigid", "floating", "hand"))}
    if draw.random() < 0.3:
        machine["max_spindle_speed"] = draw.choice((1, 300, 12000))
    if draw.random() < 0.2:
        machine["max_torque"] = draw.choice((0.01, "5 N*m", 900))
    if draw.random() < 0.2:
        machine["max_power"] = draw.choice((0.01, "3 kW"))
    if draw.random() < 0.4:
        share = draw.choice((0, 0.001, 0.01, 0.05, 0.3))
        mean = round(scale * share, 5)
        machine["drill_oversize"] = draw.choice((mean, {"mean": mean, "standard_deviation": round(mean / 2, 5)}))
    return machine


def answers(body: Body) -> Iterator[str]:
    """Ask every endpoint that the body fits, and audit the hole's own plan; yields what came of each.

    Raises whatever an endpoint raises that is no coded refusal.
    """
    for name, ask in _ASKED.items():
        try:
            reply = ask(body)
        except BorewrightError as refused:
            yield f"{name} {refused.code}"
            continue
        json.dumps(reply, allow_nan=False)
        yield f"{name} answered"


def _hole_spec(body: Body) -> object:
    asked = HOLE_SPEC.asked(body)
    return replies.hole_spec_reply(specify.specify(asked.request), asked)


def _audit(body: Body) -> object:
    asked = HOLE_SPEC.asked(body)
    spec = specify.specify(asked.request)
    plan: Body = {"drill": "27/64", "tap": "1/2-13 NC HSS G H3"}
    if spec.drill is not None and spec.tap is not None:
        tap = spec.tap.recommended
        plan = {"drill": spec.drill.recommended.drill.label, "tap": {"marking": tap.marking, "style": tap.style}}
    told = AUDIT.asked({**body, "as_planned": plan})
    return audit_replies.audit_reply(audit(told.request), told)


def _part(*names: str) -> Callable[[Body], Body]:
    return lambda body: {name: body[name] for name in ("thread", "unit_system", "explain", *names) if name in body}


def _thread_reply(body: Body) -> object:
    asked = THREAD.asked(_part("length_of_engagement", "edition")(body))
    return replies.thread_reply(specify.resolve_thread(asked.request), asked)


def _drill_reply(body: Body) -> object:
    names = [
        "method",
        "percent_thread",
        "objective",
        "drill_series",
        "length_of_engagement",
        "material",
        "finish",
        "stock",
        "machine",
        "edition",
    ]
    asked = DRILL.asked(_part(*names)(body))
    return replies.drill_reply(specify.recommend_drill(asked.request), asked)


def _allowance_reply(body: Body) -> object:
    asked = ALLOWANCE.asked({"finish": "zzz", **_part("finish", "material", "tap_limits", "edition")(body)})
    return replies.allowance_reply(specify.allow_finish(asked.request), asked)


def _tap_reply(body: Body) -> object:
    names = ("hole", "material", "method", "finish", "stock", "tap_limits", "edition")
    asked = TAP.asked(_part(*names)(body))
    return replies.tap_reply(specify.recommend_tap(asked.request), asked)


_ASKED: Mapping[str, Callable[[Body], object]] = {
    "hole-specs": _hole_spec,
    "audit": _audit,
    "threads": _thread_reply,
    "drills": _drill_reply,
    "allowances": _allowance_reply,
    "taps": _tap_reply,
}


def walk(first: int, count: int) -> tuple[Counter[str], dict[str, Body]]:
    """What came of ``count`` requests from seed ``first``; requests that raised anything else, by the fault's place."""
    came: Counter[str] = Counter()
    wrong: dict[str, Body] = {}
    for seed in range(first, first + count):
        body = hole_spec(seed)
        try:
            came.update(answers(body))
        except Exception as fault:
            last = traceback.extract_tb(fault.__traceback__)[-1]
            place = f"{type(fault).__name__} {last.filename.rpartition('/')[2]}:{last.lineno} {fault!s:.100}"
            came["fault"] += 1
            wrong.setdefault(place, body)
    return came, wrong


if __name__ == "__main__":
    counted, found = walk(int(sys.argv[1]), int(sys.argv[2]))
    print(json.dumps(counted.most_common(), indent=0))
    for where, request in found.items():
        print(where, json.dumps(request))
