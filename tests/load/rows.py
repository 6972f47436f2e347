"""Rows of the table that the measurements make."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import median


@dataclass(frozen=True)
class Row:
    """One goal: what was measured, the ratio and the goal."""

    name: str
    figure: str
    ratio: float
    goal: str
    reached: bool


def at_least(name: str, ours: float, floor: float, goal: float, unit: str) -> Row:
    """A row whose ratio should be high."""
    return Row(name, f"{ours:,.0f} / {floor:,.0f} {unit}", ours / floor, f"at least {goal}", ours >= goal * floor)


def at_most(name: str, figure: str, ratio: float, goal: float) -> Row:
    """A row whose ratio should be low."""
    return Row(name, figure, ratio, f"at most {goal}", ratio <= goal)


def of_rounds(name: str, rounds: list[tuple[float, float]], goal: float, more: str) -> Row:
    """A row whose ratio should be high, of rounds in which both were measured: the middle ratio, and the spread."""
    ratios = sorted(ours / floor for ours, floor in rounds)
    ours, floor = (median(side) for side in zip(*rounds, strict=True))
    figure = f"{ours:,.0f} / {floor:,.0f} /s, {more}, {ratios[0]:.2f} to {ratios[-1]:.2f}"
    return Row(name, figure, median(ratios), f"at least {goal}", median(ratios) >= goal)


def table(rows: list[Row]) -> str:
    lines = ["| measured | figures | ratio | goal | reached |", "|---|---|---|---|---|"]
    lines += [
        f"| {row.name} | {row.figure} | {row.ratio:.2f} | {row.goal} | {'yes' if row.reached else 'no'} |"
        for row in rows
    ]
    return "\n".join(lines) + "\n"
