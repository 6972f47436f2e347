"""What a release says of the answers that it changed."""

from __future__ import annotations

import importlib.util
import json
import sys
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
from borewright.api import create_app

BODY = {"thread": "M8", "hole": {"type": "through", "thickness": 12}, "material": "1045"}


@pytest.fixture(scope="module")
def release_changes() -> ModuleType:
    found = importlib.util.spec_from_file_location("release_changes", Path(__file__).with_name("release_changes.py"))
    assert found is not None
    assert found.loader is not None
    module = importlib.util.module_from_spec(found)
    sys.modules["release_changes"] = module
    found.loader.exec_module(module)
    return module


@pytest.fixture(scope="module")
def reply() -> dict[str, Any]:
    return create_app().test_client().post("/v1/hole-specs", json=BODY).json


def recorded(reply: dict[str, Any], **parts: Any) -> str:
    """As a record has it: what names a version is cut out of the text."""
    text = json.dumps({**reply, **parts}, separators=(",", ":"))
    for name in ("spec_id", "tables_version", "rules_version"):
        text = text.replace(f'"{name}":"{reply[name]}"', "")
    return text


def test_a_release_says_which_answers_changed(release_changes, reply):
    changes = release_changes.Changes()
    now = (200, recorded(reply))
    depths = {**reply["depths"], "tap_travel": 99}
    for before in (
        now,
        (200, recorded(reply, depths=depths)),
        (200, recorded(reply, depths=depths, review=[{"code": "x", "text": "y", "pointer": ""}])),
        (200, recorded(reply, assumptions=["other words"])),
        (422, "{}"),
    ):
        changes.add("/v1/hole-specs", "application/json", BODY, before, now)
    changes.add("/v1/threads/resolve", "application/json", {}, (200, "a"), (200, "b"))
    changes.add("/v1/hole-specs", "application/xml", BODY, (200, "a"), (200, "a"))
    text = " ".join(changes.paragraph().split())
    assert text.startswith(
        "- Of 5 recorded hole specifications 2 changed in what the shop must know (depths 2, decisions 1), 1 in other"
        " figures, words or sources only; 1 are answered or refused that were not. Of 2 other answers 1 differ."
    )
    assert f"For example M8: /depths/tap_travel 99 -> {reply['depths']['tap_travel']}." in text


def test_a_release_that_changed_nothing_says_so(release_changes, reply):
    changes = release_changes.Changes()
    changes.add("/v1/hole-specs", "application/json", BODY, (200, recorded(reply)), (200, recorded(reply)))
    assert changes.paragraph() == "- Of 1 recorded hole specifications and 0 other answers none changed."
