"""What people read in Tryton of the plan of a part: the lines of the routing and its notes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, NamedTuple

Reply = Mapping[str, Any]

#: Heads of the notes on the routing. A note that begins otherwise is of people, or tells what a run has changed.
DECIDE, WORK, TOOLS = "What to decide and to know", "Work and times", "Tools and what is laid out"


class Line(NamedTuple):
    """A line of the routing: a tool with its holes, or what is done away from the spindle.

    Seconds are those of one part; None where they are not held.
    """

    text: str
    work: str
    tool_change_s: float | None = None
    run_s: float | None = None


def lines(plan: Reply, counts: Mapping[str, int]) -> list[Line]:
    """The lines of a plan in their order; ``counts`` says how many of each hole the part has."""
    found: list[Line] = []
    stages = {step["stage"] for step in plan["sequence"]} | {away["after_stage"] for away in plan["away_from_spindle"]}
    for stage in sorted(stages):
        found += [_loading(step, plan, counts) for step in plan["sequence"] if step["stage"] == stage]
        found += [_away(away, counts) for away in plan["away_from_spindle"] if away["after_stage"] == stage]
    return found


def notes(plan: Reply, counts: Mapping[str, int]) -> dict[str, str]:
    """The notes on the routing by their heads."""
    written = {DECIDE: _to_know(plan), WORK: _work(plan, lines(plan, counts)), TOOLS: _tools(plan)}
    return {head: "\n".join((head, *found)) for head, found in written.items()}


def _loading(step: Reply, plan: Reply, counts: Mapping[str, int]) -> Line:
    said: dict[str, list[str]] = {}
    for hole in plan["holes"]:
        if hole["id"] in step["holes"]:
            said.setdefault(_of_operation(hole, step), []).append(hole["id"])
    return Line(
        text=f"{_does(step)}: {_named(step['holes'], counts)}",
        work="\n".join(f"{_named(names, counts)}: {text}" for text, names in said.items()),
        tool_change_s=step["tool_change"],
        run_s=None if step["time"] is None else step["time"] + step["positioning"],
    )


def _of_operation(hole: Reply, step: Reply) -> str:
    """What the specification of a hole says of the operation; a tool that comes twice is told by both lines."""
    return "; ".join(one["text"] for one in hole["operations"] if one["operation"] == step["operation"])


def _away(away: Reply, counts: Mapping[str, int]) -> Line:
    names = _named(away["holes"], counts)
    return Line(text=f"{away['text']}: {names}", work=f"{names}: {away['text']}")


def _named(holes: Iterable[str], counts: Mapping[str, int]) -> str:
    return ", ".join(name if counts[name] == 1 else f"{name} ({counts[name]})" for name in holes)


def _does(step: Reply) -> str:
    """Operation and tool, whose name may begin with the operation."""
    operation, tool = step["operation"].replace("_", " "), step["tool"]
    told = tool if tool.startswith(operation) else f"{operation} with {tool}"
    return told[0].upper() + told[1:]


def _to_know(plan: Reply) -> Iterator[str]:
    yield f"Verdict: {plan['verdict']}"
    yield from _listed("To decide before the release", (f"{one['hole']}: {one['text']}" for one in plan["review"]))
    holes: dict[str, list[str]] = {}
    for hole in plan["holes"]:
        for caution in hole["cautions"]:
            holes.setdefault(caution["text"], []).append(hole["id"])
    of_part = {caution["text"]: [] for caution in plan["cautions"]}
    told = of_part | holes
    yield from _listed("Cautions", (f"{', '.join(names)}: {text}" if names else text for text, names in told.items()))
    moved = (
        f"{one['hole']}: {', '.join(one['to'])} for {', '.join(one['from'])}: {one['why']}" for one in plan["changes"]
    )
    yield from _listed("Holes that share a tool", moved)
    yield plan["notice"]


def _work(plan: Reply, every: Iterable[Line]) -> Iterator[str]:
    for line in every:
        yield f"{line.text}{_times(line)}"
        if line.tool_change_s is not None:
            yield from (f"  {said}" for said in line.work.splitlines())
    time = plan["time"]
    yield f"A part takes {time['total']:g} s at the spindle, the lot {time['per_lot']:g} s."
    if time["untimed"]:
        yield f"The time of {time['untimed']} lines is not held and not counted."
    yield "Setting up the machine and work away from the spindle are not timed."
    for source in plan["sources"]:
        if source["for"].startswith("time."):
            told = f"{source['document']}, {source['locator']} ({source['status']})"
            yield f"Source of {source['for'].removeprefix('time.').replace('_', ' ')}: {told}"


def _times(line: Line) -> str:
    if line.tool_change_s is None:
        return ""
    run = "not held" if line.run_s is None else f"{line.run_s:.1f} s"
    return f"; tool change {line.tool_change_s:g} s, run {run}"


def _tools(plan: Reply) -> Iterator[str]:
    stocked = {True: ", in stock", False: ", not in stock", None: ""}
    for tool in plan["tools"]:
        special = ", made to order" if tool["availability"] == "special" else ""
        yield f"- {tool['tool']}{stocked[tool['in_stock']]}{special}: {', '.join(tool['holes'])}"
    for head in ("gauges", "fluids", "other"):
        yield from _listed(head.capitalize(), plan["kit"][head])


def _listed(head: str, told: Iterable[str]) -> Iterator[str]:
    found = [f"- {one}" for one in told]
    if found:
        yield f"{head}:"
        yield from found
