"""Every system answers every member of its record, for every catalogued size and class, with every kind of mate."""

from __future__ import annotations

import pytest
from borewright.core import callout, standards
from borewright.core.errors import ThreadError
from borewright.core.joint.geometry import joint
from borewright.core.model import Diameters, Length, Thread
from borewright.core.requests import ThreadFields
from borewright.core.standards import systems
from borewright.core.standards.system import System, Traits

#: A class of the screw of every kind that a standard names, a hole's class, and none that exists.
MATES = (
    "1A", "2A", "3A", "6g", "4g6g", "6h", "8g", "6az", "6a", "2G", "3G", "4G", "5G", "2C", "7e", "8c", "A", "B",
    "close", "medium", "free", "normal", "2B", "6H", "", "zzz",
)  # fmt: skip
CODES = {"thread_class_unknown", "thread_mate_excluded", "thread_cell_undefined", "thread_data_missing"}


def sizes_of(system: System) -> list[str]:
    """Callouts of its sizes; a square thread is what its callout states."""
    return [entry.designation for entry in system.catalogue()] or ["SQUARE 40x7 depth 3.5", "1-4 SQUARE depth .125"]


def with_class(text: str, thread_class: str, system: str) -> Thread:
    found = callout.read(text)
    fields = {"system": system, "size": found.size, "threads_per_inch": found.threads_per_inch}
    pitch = None if found.pitch is None or found.threads_per_inch else Length(found.pitch, found.unit)
    series = found.series if system != "iso_metric" else None
    read = ThreadFields(**fields, pitch=pitch, series=series, thread_class=thread_class)
    return standards.resolve(callout.from_fields(read))


@pytest.mark.parametrize("name", systems.NAMES)
def test_record_has_its_own_name_everywhere(name):
    system = systems.of(name)
    assert system.name == name
    assert system.coverage().system == name
    assert {entry.system for entry in system.catalogue()} <= {name}
    assert isinstance(system.traits, Traits)
    assert system.traits.taps_of is None or system.traits.taps_of in systems.NAMES


def test_families_have_no_other_systems():
    from borewright.core.standards.systems import _FAMILIES

    assert tuple(system.name for family in dict.fromkeys(_FAMILIES.values()) for system in family()) == systems.NAMES


@pytest.mark.parametrize("name", systems.NAMES)
def test_every_size_in_every_class_takes_or_refuses_every_mate(name):
    system = systems.of(name)
    listed = {entry.designation: entry.classes for entry in reversed(system.catalogue())}
    for position, text in enumerate(sizes_of(system)):
        own = standards.resolve(callout.read(text))
        assert own.system == name
        assert own.unit == (system.reader.unit or own.unit)
        for thread_class in listed.get(text, ()):
            assert with_class(text, thread_class, name).thread_class in (thread_class, None)
        for thread_class in MATES if position % 7 == 0 else MATES[position % 7 :: 7]:
            takes_or_refuses(own, thread_class)


def takes_or_refuses(thread: Thread, thread_class: str) -> None:
    try:
        found = standards.external_limits(thread, thread_class=thread_class)
    except ThreadError as error:
        assert error.code in CODES, (thread.designation, thread_class)
        assert error.faults[0].pointer == "/mating_screw/class"
        return
    assert found is None or isinstance(found, Diameters)
    joint(thread, thread_class)


#: What the other subjects ask of a system, as its standard or the trade has it.
PIPES = {"npt", "nptf", "npsm", "npsc", "npsf", "npsi", "iso_7", "iso_228"}
TRAITS = {
    "is_pipe": dict.fromkeys(PIPES, True),
    "taper_pipe": {"npt": "american", "nptf": "american", "iso_7": "iso"},
    "general_class": {"unified": "2B", "unified_j": "2B", "iso_metric": "6H", "metric_j": "6H"},
    "tap_limits": {
        **dict.fromkeys(("unified", "unified_j"), "inch"),
        **dict.fromkeys(("iso_metric", "metric_j"), "metric"),
        **dict.fromkeys(("insert_unified", "insert_metric"), "insert"),
    },
    "taps_of": {"unified_j": "unified", "metric_j": "iso_metric", "npsi": "npsf"},
    "j_form_of": {"unified_j": "UN", "metric_j": "M"},
    "etched": {
        **dict.fromkeys(("unified", "unified_j", "insert_unified", "whitworth", "nptf"), "threads_per_inch"),
        **dict.fromkeys(("iso_metric", "metric_j", "insert_metric"), "pitch"),
    },
    "etched_series": {"nptf": "NPTF"},
    "gauges": {"unified": "asme", "unified_j": "asme", "iso_metric": "iso", "metric_j": "iso"},
    "coated": {"unified": "asme_b1_1", "iso_metric": "iso_965"},
    "overtap": {"unified": "astm_a563", "iso_metric": "iso_965_5"},
    "hole_limits": {"unified": "fed_std_h28", "unified_miniature": "asme_b1_10"},
    "wall_chart": {"unified": True, "unified_j": True},
    "tap_lengths": {"unified": "inch", "unified_j": "inch", "iso_metric": "coarse_metric"},
}


@pytest.mark.parametrize("trait", TRAITS)
def test_which_systems_have_a_trait(trait):
    """Every other system has the default: none."""
    held = {name: getattr(systems.of(name).traits, trait) for name in systems.NAMES}
    assert {name: value for name, value in held.items() if value} == TRAITS[trait]
