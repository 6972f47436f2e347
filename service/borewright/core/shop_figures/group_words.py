"""What a fitted figure holds for, in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from .data import Group

_MATERIAL = "ISO 513 group {}"


def group_words(group: Group) -> str:
    """What the pieces of ``group`` have in common, in words."""
    return ", ".join(part for part in _PARTS[group.figure](*group.key) if part) or "all"


def _material(letter: str | None) -> str:
    return "" if letter is None else _MATERIAL.format(letter)


_PARTS: Mapping[str, Callable[..., tuple[str | None, ...]]] = {
    "drill_oversize": lambda band, group, machine, style: (_band(band), _material(group), machine, style),
    "tap_oversize": lambda group, machine, method, tapping, style, known: (
        {"cut": "cut taps", "form": "forming taps"}[method],
        _material(group),
        machine,
        tapping,
        style,
        "" if known else "taps not measured",
    ),
    "coat": lambda names, plater: (*names, plater),
    "tapping_torque": lambda group, machine, fluid, style: (_material(group), machine, fluid, style),
    "tap_life": lambda band, group, machine: (_band(band), _material(group), machine),
    "go_no_go": lambda thread, diameter, machine: (thread, f"{diameter} diameter", machine),
}


def _band(band: tuple[float, float]) -> str:
    return f"over {band[0]:g} to {band[1]:g} in" if band[1] < 1e6 else f"over {band[0]:g} in"
