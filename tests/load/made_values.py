"""Values by chance, of the published schemas and of what the tables hold, or spoilt."""

from __future__ import annotations

import csv
import json
import random
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

from borewright.contract.documents import published
from borewright.core import finishing, standards
from borewright.core.materials import part_material

Json = dict[str, Any]
DEMO = Path(__file__).parents[2] / "service" / "demo"
SCHEMAS: dict[str, Json] = {name: json.loads(text) for name, text in published.schemas_json().items()}
THREADS = [entry.designation for entry in standards.catalogue()]
FINISHES = [f"{entry.specification} {entry.finish_class}" for entry in finishing.catalogue()]
MATERIALS = [material.name for material in part_material.catalogue()]
MARKINGS = ["1/2-13 NC HSS G H3", "M8x1.25 HSS G D5", "Rc 1/2", "M8 6H FORMING", "H3", "D5", "ISO 2", "6HX", "+.005"]
DRILLS = ["27/64", "#7", "6.8 mm", ".5687 in", "F", "2", "1-1/4", "13.000001 mm"]
HARDNESS = [
    "28 HRC",
    "300 HB",
    "60 HRC",
    "1200 HV",
    "-5 HRC",
    "1e400 HB",
    "999999999 HV",
    "0 HB",
    "20-30 HRC",
    "100 HRB",
]
#: What a text of a field may be about, by the field's name.
WORDS = {
    "thread": THREADS, "size": ["1/2", "#10", "M8", "8", "M0.3", "4 1/2", "99999"],
    "system": ["unified", "iso_metric", "npt", "iso_228", "trapezoidal", "british_association", "acme"],
    "series": ["UNC", "UNF", "UN", "UNS", "UNJ"], "class": ["2B", "6H", "3B", "1A", "7H", "AZ"],
    "material": MATERIALS, "name": MATERIALS, "group": list("PMKNSHX"), "hardness": HARDNESS,
    "finish": FINISHES, "specification": FINISHES, "drills": DRILLS, "drill": DRILLS, "taps": MARKINGS,
    "tap": MARKINGS, "second_tap": MARKINGS, "marking": MARKINGS, "limit": MARKINGS,
    "grade": ["SAE J429 grade 8", "8.8", "A2-70", "grade 99"],
    "wrong_thread": THREADS, "date": ["2026-11-19", "11/19/26", "19.11.2026", "2026-02-30"],
    "tap_style": ["spiral_point", "forming", "x"],
    "contains": ["60", "steel", "zinc"],
}  # fmt: skip
#: Words of hole notes, put together by chance.
NOTE_WORDS = [
    "4X",
    "(2)",
    "2 HOLES",
    "8 PL",
    "THRU",
    "THROUGH ALL",
    "FAR SIDE",
    "↧.75",
    ".62 DP",
    "X .50 DEEP",
    "20 TIEF",
]
NOTE_WORDS += [
    "DRILL",
    "TAP",
    "⌀.4219",
    "Ø6.8",
    "⌴ Ø.75 ↧.38",
    "⌵ .56 X 90°",
    "C'BORE .75",
    "MIN",
    "MAX",
    "FULL THD",
    "1.25",
]
NOTE_WORDS += [
    "EQ SP ON 4.00 B.C.",
    "AS SHOWN",
    "BOTH SIDES",
    "PRIOR TO PLATE",
    "HELICOIL",
    "±.005",
    "0.2 POSITION A B C",
]
GENERAL_NOTES = ["ALL THREADS CLASS 2B UNLESS OTHERWISE SPECIFIED", "ZINC PLATE PER ASTM B633 FE/ZN 8", "MATL: 6061-T6"]
GENERAL_NOTES += ["DIMENSIONS APPLY AFTER PLATING", "ALL DIMENSIONS IN MM", "BREAK EDGES"]
WORDS["general_notes"] = GENERAL_NOTES
_UNITS = re.compile(r"\(\?:([^()]+)\) \*\$$")
NUMBERS = [0, -0.0, 1e-9, 1e-6, 0.001, 0.1, 0.5, 1, 2, 7, 12, 16, 60, 75, 100, 180, 2540, 1e6, -1, 0.1 + 0.2, 2**53]
#: One of them is needed, by the kind of hole.
DEPTHS = ("full_thread_depth", "thickness")
#: What a measurement needs, by its kind.
OF_MEASUREMENT = {
    "drilled_hole": ("drill", "measured"), "tapped_thread": ("thread", "measured", "tap"),
    "coat": ("finish", "measured"), "tapping_torque": ("thread", "torque", "expected_torque"),
    "go_no_go": ("thread", "checked", "go_refused", "not_go_entered"), "taps_used": ("thread", "holes", "broken"),
}  # fmt: skip
#: Fields that suit few requests.
SELDOM = frozenset({"edition", "drill_series", "length_of_engagement", "access_depth", "clearance_diameter"})
#: As JSON writes it; Python has no other name for most of them.
RAW = ["5e-324", "1e400", "-1e400", "1" + "0" * 400, "NaN", "-Infinity", "1e308", "0e99999", "true", "null", "[]", "{}"]
RAW += ['""', '" "', '"\\u0000"', '"\\ud83d\\ude00"', '"½"', "[[[]]]", '{"x":1}', '"' + "9" * 300 + '"', "-0", "1E+2"]


class Maker:
    """Bodies by chance.

    Args: ``kept``: replies of hole specifications, for fields that take one; ``measured``: figures of a shop.
    """

    def __init__(self, seed: int, kept: list[Json], measured: Json) -> None:
        self.random, self.kept, self.measured = random.Random(seed), kept, measured
        with (DEMO / "measurements.csv").open(encoding="utf-8") as file:
            self.pieces = list(csv.DictReader(file))
        self.spoilt, self.odd, self.raw = 0, False, list[str]()

    def body(self, schema: Json, *, spoilt: int) -> bytes:
        """A body as bytes; ``spoilt``: one in so many values is none that the schema knows, 0 = every one is."""
        text = json.dumps(self.value(schema, spoilt=spoilt))
        for place, raw in enumerate(self.raw):
            text = text.replace(f'"raw {place} raw"', raw)
        return text.encode()

    def value(self, schema: Json, *, spoilt: int) -> Any:
        """A value of a schema, ``raw N raw`` where one is spoilt."""
        self.spoilt, self.odd, self.raw = spoilt, self.random.random() < 0.3, []
        return self._value(schema, schema, "")

    def _value(self, schema: Json, whole: Json, name: str) -> object:
        if self.spoilt and self.random.randrange(self.spoilt) == 0:
            self.raw.append(self.random.choice(RAW))
            return f"raw {len(self.raw) - 1} raw"
        if "$ref" in schema:
            return self._value(whole["$defs"][schema["$ref"].rpartition("/")[2]], whole, name)
        if "anyOf" in schema:
            known = [one for one in schema["anyOf"] if one.get("type") != "null"]
            usual = known[0] if self.random.random() < 0.7 else self.random.choice(known)
            return self._value(usual, whole, name)
        if "enum" in schema:
            return self.random.choice(schema["enum"])
        if name == "defaults":
            return self._some_of(SCHEMAS["hole-spec-request"], {})
        if name == "before" and schema.get("type") == "object":
            return self._kept()
        if name == "shop_figures" and self.random.random() < 0.7:
            return self.measured
        kind = schema.get("type", "object")
        kind = kind if isinstance(kind, str) else kind[0]
        make: Callable[[Json, Json, str], object] = getattr(self, f"_{kind}")
        return make(schema, whole, name)

    def _object(self, schema: Json, whole: Json, name: str) -> Json:
        fields = schema.get("properties", {})
        needed = {*schema.get("required", []), *(DEPTHS if name == "hole" else ())}
        needed |= {"after"} if "after" in fields and self.random.random() < 0.8 else set()
        often = self.random.choice([0.0, 0.05, 0.1, 0.3])
        given: Json = {}
        if "kind" in fields:
            given["kind"] = self._value(fields["kind"], whole, "kind")
            needed |= set(OF_MEASUREMENT.get(str(given["kind"]), ()))
        asked = [one for one in fields if one in needed or self.random.random() < often / (1 + 4 * (one in SELDOM))]
        asked = asked or list(fields)[:1]
        return {one: self._value(fields[one], whole, one) for one in asked} | given

    def _some_of(self, schema: Json, given: Json) -> Json:
        """``given`` with one to three more fields of a schema."""
        fields = schema["properties"]
        names = self.random.sample(sorted(fields), self.random.randint(1, 3))
        return {**given, **{one: self._value(fields[one], schema, one) for one in names}}

    def _kept(self) -> Json:
        """A kept reply, as it came or a little changed, or what was asked with its name."""
        reply = json.loads(json.dumps(self.random.choice(self.kept)))
        for _ in range(self.random.choice([0, 0, 1, 3])):
            part = reply
            while isinstance(part, dict) and part:
                name = self.random.choice(sorted(part))
                if not isinstance(part[name], dict) or self.random.random() < 0.3:
                    part[name] = self.random.choice([None, 0, 1e300, "x", [], {}, [[1]], {"min": 1}])
                    break
                part = part[name]
        asked = self._object(SCHEMAS["hole-spec-request"], SCHEMAS["hole-spec-request"], "")
        more: list[Json] = [{"request": asked, "reply": reply}, {"request": asked, "spec_id": reply.get("spec_id")}]
        return self.random.choice([reply, *more, {"index": 0, "id": None, "status": "ok", "spec": reply}])

    def _pieces(self) -> list[object]:
        """Pieces as the demo's shop measured them, some a little off."""
        pieces: list[object] = []
        for row in self.random.choices(self.pieces, k=self.random.choice([1, 3, 20, 60])):
            piece: Json = {name: text for name, text in row.items() if text and "." not in name}
            if self.random.random() < 0.3 and "measured" in piece:
                value, _, unit = piece["measured"].partition(" ")
                off = self.random.choice([0.9, 0.999, 1.001, 1.1])
                piece["measured"] = f"{float(value) * off:.5f} {unit or 'in'}"
            pieces.append(piece)
        return pieces

    def note(self) -> str:
        """A hole note of words by chance."""
        words = [*self.random.choices(NOTE_WORDS, k=self.random.choice([1, 3, 6, 60]))]
        for _ in range(self.random.choice([1, 1, 2, 9])):
            words.insert(self.random.randint(0, len(words)), self.random.choice(THREADS))
        return self.random.choice([" ", "  ", "\n", ", "]).join(words)

    def _array(self, schema: Json, whole: Json, name: str) -> list[object]:
        if name == "measurements" and self.random.random() < 0.7:
            return self._pieces()
        most = min(schema.get("maxItems", 4), self.random.choice([1, 2, 4, 8, 40]))
        least = 0 if self.odd else max(1, schema.get("minItems", 0))
        items = range(self.random.randint(least, max(least, most)))
        return [self._value(schema["items"], whole, name) for _ in items]

    def _string(self, schema: Json, whole: Json, name: str) -> str:
        units = _UNITS.search(schema.get("pattern", ""))
        if units is not None:
            unit = self.random.choice(units[1].split("|")).replace("\\", "")
            unit = "furlong" if self.odd and self.random.random() < 0.1 else unit
            return f"{abs(self._number(schema, whole, name)):.6f} {unit}"
        word = self.note() if name == "note" else str(self.random.choice(WORDS.get(name, ["KRP-4105-D1"])))
        if self.spoilt and self.random.random() < 0.3:
            place = self.random.randint(0, len(word))
            word = (
                word[:place]
                + self.random.choice(["", "0", "-", " ", "x", "½", "\x00", "é", "/", "1e9", "LH"])
                + word[place:]
            )
        return word

    def _number(self, schema: Json, whole: Json, name: str) -> float:
        least, most = schema.get("minimum", 0.0001), schema.get("maximum", 100)
        usual = self.random.choice([0.25, 0.5, 0.75, 1, 2, 8, 12, 20, 75])
        if self.odd and self.random.random() < 0.5:
            return self.random.choice([least, most, self.random.choice(NUMBERS)])
        return min(max(self.random.choice([usual, usual + round(self.random.random(), 3)]), least), most)

    def _integer(self, schema: Json, whole: Json, name: str) -> int:
        return self.random.randint(schema.get("minimum", 0), min(schema.get("maximum", 9), 9))

    def _boolean(self, schema: Json, whole: Json, name: str) -> bool:
        return self.random.random() < 0.5
