"""The request that each command makes of its options."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from ..client import Client, Reply
from .fields import figure, put
from .options import further

_DRAWINGS = {".svg": "image/svg+xml", ".pdf": "application/pdf", ".png": "image/png"}


class WrongUse(ValueError):
    """Options or a file that cannot be used as they are; nothing was asked."""


def spec(client: Client, options: Namespace) -> Reply:
    """``borewright spec``; with ``--drawing`` the section is written as well."""
    request = _hole_spec(options)
    reply = client.hole_spec(request)
    if options.drawing:
        target = Path(options.drawing)
        media_type = _DRAWINGS.get(target.suffix.lower())
        if media_type is None:
            raise WrongUse(f"--drawing {target}: a drawing is a file that ends in {', '.join(_DRAWINGS)}")
        target.write_bytes(client.drawing(request, media_type))
    return reply


def audit(client: Client, options: Namespace) -> Reply:
    """``borewright audit``."""
    tap = _given(marking=options.tap, style=options.tap_style, chamfer=options.tap_chamfer)
    planned = _given(
        drill=options.drill,
        tap=tap,
        second_tap=options.second_tap,
        drill_depth=figure(options.drill_depth),
        spindle_speed=options.spindle_speed,
        tap_spindle_speed=options.tap_spindle_speed,
        operations_order=None if options.order is None else [word.strip() for word in options.order.split(",")],
    )
    return client.audit({**_hole_spec(options), "as_planned": planned})


def thread(client: Client, options: Namespace) -> Reply:
    """``borewright thread``."""
    return client.resolve_thread(**_request("thread", options))


def drill(client: Client, options: Namespace) -> Reply:
    """``borewright drill``."""
    fields = _given(finish=options.finish, machine=_machine(options), **_drilling(options))
    return client.recommend_drill(**_request("drill", options, fields))


def allowance(client: Client, options: Namespace) -> Reply:
    """``borewright allowance``."""
    fields = _given(finish=options.finish, material=_material(options), tap_limits=options.tap_limits)
    return client.allowance(**_request("allowance", options, fields))


def tap(client: Client, options: Namespace) -> Reply:
    """``borewright tap``, or with ``--decode`` what a marking says."""
    if options.decode:
        return client.decode_tap(options.thread, **_given(unit_system=options.units, explain=options.explain or None))
    fields = _given(
        hole=_hole(options),
        finish=options.finish,
        material=_material(options),
        method=options.method,
        tap_limits=options.tap_limits,
    )
    return client.recommend_tap(**_request("tap", options, fields))


def note(client: Client, options: Namespace) -> Reply:
    """``borewright note``."""
    text = sys.stdin.read() if options.note == "-" else options.note
    hole = _given(thickness=figure(options.thickness))
    defaults = _given(material=options.material, hole=hole or None)
    fields = _given(general_notes=options.general, defaults=defaults or None, unit_system=options.units)
    return client.read_note(text, **fields)


def catalog(client: Client, options: Namespace) -> Reply:
    """``borewright catalog``."""
    return client.catalog(options.name)


def _hole_spec(options: Namespace) -> dict[str, Any]:
    screw = _given(**{"class": options.screw_class, "grade": options.screw_grade})
    fields = _given(
        id=options.id,
        hole=_hole(options),
        finish=options.finish,
        tap_limits=options.tap_limits,
        machine=_machine(options),
        mating_screw=screw or None,
        detail=options.detail if options.json else None,
        **_drilling(options),
    )
    return _request("hole_spec", options, fields)


def _request(name: str, options: Namespace, fields: Mapping[str, Any] = {}) -> dict[str, Any]:
    """A request: its thread, ``fields``, what every request has, and what its further options say."""
    request = {"thread": options.thread, **fields}
    request |= _given(edition=options.edition, unit_system=options.units, explain=options.explain or None)
    for field in further(name).values():
        if text := getattr(options, field):
            put(request, field, text)
    return request


def _hole(options: Namespace) -> dict[str, Any] | None:
    kind, wall = (None, options.wall) if options.blind is None else ("blind", options.wall)
    if options.through is not None:
        kind, wall = "through", options.through
    depths = _given(
        full_thread_depth=figure(options.blind),
        thickness=figure(wall),
        drill_depth_limit=figure(options.drill_depth_limit),
    )
    return _given(type=kind, **depths) or None


def _drilling(options: Namespace) -> dict[str, Any]:
    return _given(
        method=options.method,
        percent_thread=options.percent,
        objective=options.objective,
        material=_material(options),
    )


def _machine(options: Namespace) -> dict[str, Any] | None:
    mean, deviation = figure(options.drill_oversize), figure(options.drill_deviation)
    oversize = mean if deviation is None else _given(mean=mean, standard_deviation=deviation)
    return _given(drill_oversize=oversize) or None


def _material(options: Namespace) -> str | dict[str, str] | None:
    if options.hardness is None:
        name: str | None = options.material
        return name
    return _given(name=options.material, hardness=options.hardness)


def _given(**fields: Any) -> dict[str, Any]:
    return {name: value for name, value in fields.items() if value is not None}
