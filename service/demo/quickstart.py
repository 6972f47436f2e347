"""A worked day of Kestrel Ridge Pumps, an invented maker of pump housings and valve blocks: from drawing to routing.

The real service runs on a free port; every answer comes through the client.
"""

from __future__ import annotations

import json
import sys
import textwrap
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any

from borewright_client import Client, ClientError
from borewright_client.cli import flat, text, text_card, text_part, text_rework, workbooks
from borewright_client.cli.columns import BATCH
from borewright_client.cli.words import number, window
from running import ROOT, NotClean, running_service

Reply = dict[str, Any]
PARTS = Path(__file__).with_name("kestrel_ridge_pumps.json")
GONE_WRONG = Path(__file__).with_name("gone_wrong.csv")
HOUSING = Path(__file__).with_name("housing_notes.json")
SPECS = ROOT / "build" / "kestrel_ridge_specs.csv"
PART_ROUTING = ROOT / "build" / "kestrel_ridge_housing.xml"
CALLOUT = {"id": "KRP-1042-A1", "thread": "1/2-13 UNC-2B", "material": "grey iron class 30",
           "hole": {"type": "blind", "full_thread_depth": 0.75, "thickness": 1.75}}  # fmt: skip
BLOCK = {"id": "KRP-2418-B1", "thread": "1/2-20 UNF-2B", "material": "1018",
         "hole": {"type": "blind", "full_thread_depth": 0.625}}  # fmt: skip
PLATING = "ASTM B633 Fe/Zn 12"
OLD_LINE = {"id": "KRP-4105-D1", "drill": "5/16", "tap": "3/8-24 NF HSS G H3"}
ROUTED = "KRP-4105"
SHEET_WIDTH = 100


def main() -> int:
    """Run the day; 0 when every hole was specified, the mistake was found and the service stopped cleanly."""
    try:
        with running_service() as client:
            print("A day at Kestrel Ridge Pumps, tables", client.version()["tables_version"])
            morning(client)
            before_lunch(client)
            found = afternoon(client)
            old_routing(client)
            drawing(client)
            evening(found)
            gone_wrong(client)
    except (ClientError, NotClean) as error:
        print(error, file=sys.stderr)
        return 1
    print("\nService stopped cleanly.")
    return 0


def morning(client: Client) -> None:
    """One callout becomes a whole specification."""
    say("08:10", f"The drawing of pump housing KRP-1042 says {CALLOUT['thread']}, 0.75 in deep, and nothing more.")
    print(text_card.card(client.hole_spec(CALLOUT)))


def before_lunch(client: Client) -> None:
    """What a plating does to a hole."""
    say("11:40", f"Valve block KRP-2418 is to be zinc plated after all: {PLATING}. What changes in its holes?")
    bare, plated = client.hole_spec(BLOCK), client.hole_spec({**BLOCK, "finish": PLATING})
    columns = to_make(bare, bare["thread"]["internal"]), to_make(plated, plated["finish"]["before_finish"])
    rows = [(name, columns[0][name], columns[1][name]) for name in columns[0]]
    print_table((f"{BLOCK['thread']} in {BLOCK['material']}", "bare", "to be plated"), rows)


def to_make(spec: Reply, limits: Reply) -> dict[str, str]:
    """What the machine has to keep before any finish."""
    return {
        "pitch diameter": window(limits["pitch_diameter"]),
        "minor diameter": window(limits["minor_diameter"]),
        "drill": spec["drill"]["recommended"]["label"],
        "tap": spec["tap"]["recommended"]["marking"],
    }


def afternoon(client: Client) -> list[Reply]:
    """The whole part list goes into a CSV for the spreadsheet. Returns the specifications."""
    say("14:00", f"All holes of all parts, into {SPECS.relative_to(ROOT)}:")
    SPECS.parent.mkdir(exist_ok=True)
    found = []
    with SPECS.open("w", encoding="utf-8", newline="") as target:
        sheet = flat.Writer(target, BATCH)
        for result in client.batch(requests()):
            if result["status"] != "ok":
                raise NotClean(f"{result['id']} refused: {result['problem']['detail']}")
            sheet.write({**result["spec"], **result})
            found.append(result["spec"])
    print_table(("hole", "thread", "drill", "drill depth", "tap", "finish", "verdict"), map(row, found))
    to_decide([spec for spec in found if spec["verdict"] != "ready"])
    return found


def to_decide(waiting: Sequence[Reply]) -> None:
    """What a person must settle before these holes go to the shop."""
    print("\nTo decide before they go to the shop (service/demo/README.md says what each of them shows):")
    for spec in waiting:
        for decision in spec["review"]:
            told = f"{spec['id']}  {spec['verdict']}: {decision['text']}"
            print(textwrap.fill(told, SHEET_WIDTH, subsequent_indent="  "))


def old_routing(client: Client) -> None:
    """A line of an old routing is checked."""
    hole = next(hole for hole in requests() if hole["id"] == OLD_LINE["id"])
    say("15:30", f"The old routing of {OLD_LINE['id']} plans drill {OLD_LINE['drill']}, tap {OLD_LINE['tap']}.")
    verdict = client.audit({**hole, "as_planned": {"drill": OLD_LINE["drill"], "tap": {"marking": OLD_LINE["tap"]}}})
    print(text.audit(verdict))
    if verdict["verdict"] != "reject":
        raise NotClean("the mistake was not found")


def drawing(client: Client) -> None:
    """The notes of a drawing become the plan of its part: tool list and routing."""
    housing = json.loads(HOUSING.read_text(encoding="utf-8"))
    say("16:10", f"The drawing of pump housing {housing['part']} has eight notes and two general ones:")
    holes = [hole for note in housing["notes"] for hole in read(client, note, housing)]
    depths = [number(hole["hole"].get("full_thread_depth")) for hole in holes]
    rows = [
        (
            note["id"],
            one_line(note["note"]),
            number(hole["count"]),
            hole["thread"],
            hole["hole"]["type"],
            depth,
        )
        for note, hole, depth in zip(housing["notes"], holes, depths, strict=True)
    ]
    print_table(("hole", "note", "number", "thread", "type", "depth"), rows)
    asked = {"part": housing["part"], "holes": holes, "lot_size": housing["lot_size"]}
    plan = client.plan_part({**asked, "detail": "routing"})
    print(f"\n{text_part.plan(plan)}\n")
    print_table(("tool to set", "sold as", "pieces", "holes"), (tool_row(tool, len(holes)) for tool in plan["tools"]))
    PART_ROUTING.parent.mkdir(exist_ok=True)
    PART_ROUTING.write_bytes(client.b2mml_part(asked))
    print(f"\nThe routing, an operation a tool, is in {PART_ROUTING.relative_to(ROOT)} (B2MML).")
    print("The page /part shows the same and prints the setter's sheet.")


def one_line(note: str) -> str:
    """A note with its lines beside each other."""
    return note.replace("\n", " / ")


def tool_row(tool: Reply, of: int) -> tuple[str, ...]:
    """One tool as a line of the tool list of a part with so many kinds of holes."""
    served = tool["holes"]
    return (
        tool["tool"],
        tool["availability"],
        number(tool["count"]),
        "all" if len(served) == of else ", ".join(served),
    )


def read(client: Client, note: Reply, housing: Reply) -> list[Reply]:
    """The holes of a note, as the plan of a part takes them."""
    wall = {"hole": {"thickness": note["thickness"]}} if "thickness" in note else {}
    defaults = {"material": housing["material"], **wall}
    found = client.read_note(note["note"], general_notes=housing["general_notes"], defaults=defaults)
    if found["questions"] or found["unread"]:
        raise NotClean(f"the note of {note['id']} leaves questions")
    return [{**hole["request"], "id": note["id"], "count": hole["count"]} for hole in found["holes"]]


def evening(found: Sequence[Reply]) -> None:
    """The lines of a routing."""
    say("17:00", f"The routing of {ROUTED}, as the planning system takes it:")
    for spec in found:
        if spec["id"].startswith(ROUTED):
            print(spec["id"], spec["thread"]["designation"])
            for line in spec["operations"]:
                print(f"  {line['sequence']:>3}  {line['text']}")
    print()
    print("The cautions of each specification go with it to whoever releases the routing.")


def gone_wrong(client: Client) -> None:
    """Three holes of the late shift went wrong."""
    say("18:20", f"Three holes went wrong in the late shift ({GONE_WRONG.name}). What may be done about them?")
    answers = workbooks.answer(client, "/v1/rework/batch", GONE_WRONG, {}, workbooks.NDJSON)
    results = [json.loads(line) for line in answers.splitlines()]
    failed = sum("problem" in one for one in results)
    if failed:
        raise NotClean(f"{failed} rows of {GONE_WRONG.name} are refused")
    print(text_rework.rework({"summary": {"items": len(results), "failed": failed}, "results": results}))


def requests() -> Iterator[Reply]:
    """The request of each hole of the part list."""
    for part in json.loads(PARTS.read_text(encoding="utf-8"))["parts"]:
        for hole in part["holes"]:
            given = {"material": part["material"], "finish": part.get("finish"), **hole}
            yield {name: value for name, value in given.items() if name != "use" and value is not None}


def row(spec: Reply) -> tuple[str, ...]:
    """One hole as a line of the table."""
    drill, tap, finish = spec["drill"]["recommended"], spec["tap"]["recommended"], spec["finish"]
    depth = f"{number(spec['depths']['drill_depth'])} {spec['units']['length']}"
    plated = finish["finish"]["specification"] if finish else "-"
    return (spec["id"], spec["thread"]["designation"], drill["label"], depth, tap["marking"], plated, spec["verdict"])


def say(clock: str, told: str) -> None:
    """What happens at that time of the day."""
    print(f"\n{clock}  {told}\n")


def print_table(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> None:
    """Print rows under their heads, each column as wide as its widest cell."""
    lines = [heads, *rows]
    widths = [max(map(len, column)) for column in zip(*lines, strict=True)]
    for cells in lines:
        print("  ".join(f"{cell:<{width}}" for cell, width in zip(cells, widths, strict=True)).rstrip())


if __name__ == "__main__":
    sys.exit(main())
