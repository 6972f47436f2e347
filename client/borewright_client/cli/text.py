"""Replies as aligned text for people."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any

Reply = dict[str, Any]
Row = tuple[str, str]


def _number(value: Any) -> str:
    if isinstance(value, float):
        return f"{value:.6f}".rstrip("0").rstrip(".")
    return "-" if value is None else str(value)


def _window(limits: Any) -> str:
    if not limits or (limits.get("min") is None and limits.get("max") is None):
        return "-"
    if limits.get("max") is None:
        return f"{_number(limits['min'])} min"
    if limits.get("min") is None:
        return f"{_number(limits['max'])} max"
    return f"{_number(limits['min'])} - {_number(limits['max'])}"


def _lines(rows: Iterable[Row]) -> str:
    listed = list(rows)
    width = max(len(name) for name, _ in listed)
    return "\n".join(f"{name:<{width}}  {text}".rstrip() for name, text in listed)


def _remarks(reply: Reply) -> Iterator[Row]:
    for text in reply.get("assumptions", []):
        yield "assumed", text
    for caution in reply.get("cautions", []):
        yield "caution", caution["text"]


def _limits(name: str, diameters: Reply) -> Iterator[Row]:
    for part in ("major", "pitch", "minor"):
        yield f"{name} {part} diameter", _window(diameters[f"{part}_diameter"])


def thread(reply: Reply) -> str:
    """Limits of size."""
    return _lines([*_thread_rows(reply), *_remarks(reply)])


def _thread_rows(reply: Reply) -> Iterator[Row]:
    standard = reply["standard"]
    yield "thread", f"{reply['designation']}  ({standard['document']} {standard['edition']})"
    if "units" in reply:
        yield "unit", reply["units"]["length"]
    yield from _limits("internal", reply["internal"])
    if reply.get("external"):
        yield from _limits(f"mating {reply['mating_class']}", reply["external"])


def _drill_rows(reply: Reply) -> Iterator[Row]:
    best = reply["recommended"]
    yield "drill", f"{best['label']}  ({_number(best['diameter'])}), {best['operation'].replace('_', ' ')}"
    yield (
        "percent of thread",
        f"{_number(best['percent_thread'])} drilled, {_number(best['expected_percent_thread'])} expected",
    )
    for reason in best["reasons"]:
        yield "because", reason


def drill(reply: Reply) -> str:
    """Drill, alternatives, rejected drills."""
    rows: list[Row] = [("thread", reply["thread"]), *_drill_rows(reply)]
    rows += [
        ("or", f"{other['label']}  ({_number(other['diameter'])}), {_number(other['percent_thread'])} percent")
        for other in reply["alternatives"]
    ]
    rows += [("not", f"{other['label']}: {other['reason']}") for other in reply["rejected"]]
    return _lines([*rows, *_remarks(reply)])


def _allowance_rows(reply: Reply) -> Iterator[Row]:
    finish = reply["finish"]
    name = " ".join(str(finish[part]) for part in ("specification", "class") if finish.get(part))
    yield "finish", name or "as given"
    yield "thickness a surface", _window(finish["thickness"])
    yield from _limits("before finish", reply["before_finish"])
    yield from _limits("finished", reply["finished"])
    yield "can be made", "yes" if reply["feasible"] else "no"
    for remedy in reply.get("remedies", []):
        yield "would help", remedy


def allowance(reply: Reply) -> str:
    """Limits before and after a finish."""
    rows: list[Row] = [*_allowance_rows(reply)]
    if reply.get("tap"):
        rows.append(("tap limit", f"{reply['tap']['label']}  {_window(reply['tap']['pitch_diameter'])}"))
    return _lines([*rows, *_remarks(reply)])


def _tap_rows(reply: Reply) -> Iterator[Row]:
    for name in ("recommended", "second_tap"):
        best = reply.get(name) if name == "second_tap" else reply[name]
        if best:
            label = "tap" if name == "recommended" else "second tap"
            yield label, f"{best['marking']}  {best['style'].replace('_', ' ')}, {best['chamfer']['name']} chamfer"
            if best.get("limit"):
                yield "pitch diameter", f"{best['limit']['label']}  {_window(best['limit']['pitch_diameter'])}"
            for reason in best.get("reasons", []):
                yield "because", reason


def tap(reply: Reply) -> str:
    """Tap recommendation, or a decoded marking."""
    if "holds" in reply:
        return _lines([*_decoded_rows(reply), *_remarks(reply)])
    second = reply["recommended"].get("second_tap") or reply.get("second_tap")
    return _lines([*_tap_rows({**reply, "second_tap": second}), *_remarks(reply)])


def _decoded_rows(reply: Reply) -> Iterator[Row]:
    yield "thread", reply["thread"]["designation"] if isinstance(reply["thread"], dict) else str(reply["thread"])
    for name in ("substrate", "ground", "hand", "surface"):
        yield name, _number(reply.get(name))
    if reply.get("limit"):
        yield "limit", f"{reply['limit']['label']}  {_window(reply['limit']['pitch_diameter'])}"
    for held in reply["holds"]:
        yield "holds", f"{held['class']}  margin {_number(held['margin'])}"
    if reply["unread"]:
        yield "not read", " ".join(reply["unread"])


def spec(reply: Reply) -> str:
    """A complete hole specification."""
    rows: list[Row] = []
    if reply.get("id"):
        rows.append(("hole", str(reply["id"])))
    rows += [*_thread_rows({**reply["thread"], "units": reply["units"]})]
    if reply.get("finish"):
        rows += [*_allowance_rows(reply["finish"])]
    rows += [*_drill_rows(reply["drill"])]
    tapping = reply["tap"]
    second = tapping["recommended"].get("second_tap") or tapping.get("second_tap")
    rows += [*_tap_rows({**tapping, "second_tap": second})]
    rows += [(name.replace("_", " "), _number(value)) for name, value in reply["depths"].items() if value is not None]
    rows += [
        (f"{line['sequence']:>3} {line['operation'].replace('_', ' ')}", line["text"]) for line in reply["operations"]
    ]
    return _lines([*rows, *_remarks(reply)])


def audit(reply: Reply) -> str:
    """The verdict on a plan with its findings."""
    rows: list[Row] = [("hole", str(reply["id"]))] if reply.get("id") else []
    rows += [("thread", reply["spec"]["thread"]["designation"]), ("verdict", reply["verdict"])]
    for finding in reply["findings"]:
        rows.append((finding["severity"], f"{finding['code']}: {finding['text']}"))
        rows.append(("", f"planned {finding['planned']}; expected {finding['expected']}"))
    return _lines([*rows, *_remarks(reply)])


def catalog(reply: Reply) -> str:
    """A row a line: its figures and words, without lists."""
    rows = [
        {name: value for name, value in row.items() if not isinstance(value, (dict, list))} for row in reply["items"]
    ]
    return "\n".join("  ".join(f"{name}={_number(value)}" for name, value in row.items()) for row in rows)


TEXT: dict[str, Callable[[Reply], str]] = {
    "spec": spec,
    "audit": audit,
    "thread": thread,
    "drill": drill,
    "allowance": allowance,
    "tap": tap,
    "catalog": catalog,
}
