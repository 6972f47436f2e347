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
    for position, text in enumerate(sizes_of(system)):
        own = standards.resolve(callout.read(text))
        assert own.system == name
        assert own.unit == (system.reader.unit or own.unit)
        classes = next((entry.classes for entry in system.catalogue() if entry.designation == text), ())
        for thread_class in classes:
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
