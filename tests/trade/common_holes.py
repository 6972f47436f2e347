"""400 common holes and what is said of them: 20 threads, 10 materials, blind and through.

`python tests/trade/common_holes.py` prints the share of each verdict, the cautions a hole and what is said how often.
The threads, materials and depths are those of everyday pump housings and valve blocks (common practice, no source).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from statistics import mean
from typing import Any, NamedTuple

from borewright.contract import replies
from borewright.contract.requests import HOLE_SPEC
from borewright.core.plan.specify import specify

#: Callout and nominal diameter in the thread's own unit.
THREADS: dict[str, float] = {
    "#4-40 UNC-2B": 0.112, "#6-32 UNC-2B": 0.138, "#8-32 UNC-2B": 0.164, "#10-24 UNC-2B": 0.19, "#10-32 UNF-2B": 0.19,
    "1/4-20 UNC-2B": 0.25, "1/4-28 UNF-2B": 0.25, "5/16-18 UNC-2B": 0.3125, "3/8-16 UNC-2B": 0.375,
    "1/2-13 UNC-2B": 0.5, "5/8-11 UNC-2B": 0.625, "3/4-10 UNC-2B": 0.75,
    "M3-6H": 3, "M4-6H": 4, "M5-6H": 5, "M6-6H": 6, "M8-6H": 8, "M10-6H": 10, "M12-6H": 12, "M16-6H": 16,
}  # fmt: skip
#: Free-machining and medium steel, aluminium, brass and iron: where a plain hole should be ready.
PLAIN = ("12L14", "1018", "1045", "6061-T6", "7075-T6", "360 brass", "grey iron class 30")
MATERIALS = (*PLAIN, "4140", "304", "Ti-6Al-4V")
#: Full thread of a blind hole and wall of a through hole, in diameters.
BLIND, THROUGH = 1.5, 1.0


class Said(NamedTuple):
    """What a reply says of one hole."""

    thread: str
    material: str
    kind: str
    verdict: str
    review: tuple[str, ...]
    cautions: tuple[str, ...]


def holes() -> Iterator[dict[str, Any]]:
    """The requests."""
    for thread, diameter in THREADS.items():
        for material in MATERIALS:
            blind = {"type": "blind", "full_thread_depth": round(BLIND * diameter, 3)}
            yield {"thread": thread, "material": material, "hole": blind}
            yield {"thread": thread, "material": material, "hole": {"type": "through", "thickness": THROUGH * diameter}}


def said(request: dict[str, Any]) -> Said:
    """What the service says of a hole."""
    asked = HOLE_SPEC.asked(request)
    reply: Any = replies.hole_spec_reply(specify(asked.request), asked)
    return Said(
        request["thread"],
        request["material"],
        request["hole"]["type"],
        reply["verdict"],
        tuple(one["code"] for one in reply["review"]),
        tuple(one["code"] for one in reply["cautions"]),
    )


def main() -> None:
    """Print what is said."""
    found = [said(request) for request in holes()]
    for name, some in (("all", found), ("plain", [one for one in found if one.material in PLAIN])):
        verdicts = Counter(one.verdict for one in some)
        quiet = sum(one.verdict == "ready" and len(one.cautions) <= 2 for one in some)
        print(
            f"{name}: {len(some)} holes, " + ", ".join(f"{100 * n / len(some):.0f} % {v}" for v, n in verdicts.items())
        )
        print(f"  ready with at most two cautions: {100 * quiet / len(some):.0f} %")
        print(f"  cautions a hole: {mean(len(one.cautions) for one in some):.2f}")
        for what in ("review", "cautions"):
            for code, count in Counter(code for one in some for code in getattr(one, what)).most_common():
                print(f"    {what}: {code} {count}")


if __name__ == "__main__":
    main()
