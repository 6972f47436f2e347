"""What README.md shows is what the service answers, and its commands are ones that the command line takes."""

from __future__ import annotations

import json
import re
import shlex
from pathlib import Path

import pytest
from borewright_client import Client
from borewright_client.cli.program import GROUP

README = (Path(__file__).parent.parent.parent / "README.md").read_text(encoding="utf-8")
COMMANDS = re.findall(r"^(?:bash service/try|borewright) (.*?)(?:  +#.*)?$", README, re.MULTILINE)


def shown(name: str, told: object, found: object) -> list[str]:
    """Where the example tells something else than the reply says."""
    if told == "..." or told == []:
        return []
    if isinstance(told, dict) and isinstance(found, dict):
        return [line for key in told for line in shown(f"{name}/{key}", told[key], found.get(key))]
    if isinstance(told, list) and isinstance(found, list):
        return [] if all(any(not shown(name, one, other) for other in found) for one in told) else [name]
    return [] if told == found else [f"{name}: {told!r}, not {found!r}"]


def test_the_reply_is_the_one_that_comes(service_url):
    request = json.loads(re.search(r"-d '(\{.*?\})'", README, re.DOTALL)[1])
    example = json.loads(re.search(r"```json\n(.*?)```", README, re.DOTALL)[1])
    with Client(service_url) as client:
        reply = client.hole_spec(request)
    assert len(example) > 10
    assert shown("", example, reply) == []


def test_there_are_commands():
    assert len(COMMANDS) >= 7


@pytest.mark.parametrize("command", [command for command in COMMANDS if command != "--help"])
def test_commands_are_understood(command):
    name, *arguments = shlex.split(command)
    assert GROUP.commands[name].make_context(name, arguments)
