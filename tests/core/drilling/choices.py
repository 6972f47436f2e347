"""Choices of a drill by the text of the callout, for the tests of this folder."""

from __future__ import annotations

import pytest
from borewright.core import callout, standards
from borewright.core.drilling import DrillRequest, recommend
from borewright.core.errors import DrillingError
from borewright.core.model import DrillChoice, Material, Thread


def thread(text: str) -> Thread:
    return standards.resolve(callout.read(text))


def drill_for(text: str, **asked: object) -> DrillChoice:
    return recommend(thread(text), DrillRequest(**asked))


def refusal(text: str, **asked: object) -> DrillingError:
    with pytest.raises(DrillingError) as caught:
        drill_for(text, **asked)
    return caught.value


def codes(choice: DrillChoice) -> list[str]:
    return [caution.code for caution in choice.notes.cautions]


def material(name: str, chip: str | None, family: str = "alloy steel", hardness: float | None = 270.0) -> Material:
    return Material(name, family, "P", chip, hardness, None, None, None, None, None)


def decided(choice: DrillChoice) -> list[str]:
    return [decision.code for decision in choice.notes.decisions]
