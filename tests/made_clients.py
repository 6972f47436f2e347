"""What the tests of clients made from the OpenAPI document share: their page, its lines, and what these must say."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import requests

ROOT = Path(__file__).parent.parent
DOCUMENT = ROOT / "openapi" / "openapi.json"
_PAGE = (ROOT / "openapi" / "README.md").read_text("utf-8")


def lines(language: str, url: str) -> str:
    """The lines of the page in a language, which ask the service at ``url``."""
    (found,) = re.findall(rf"```{language}\n(.*?)```", _PAGE, re.DOTALL)
    asked: str = found.replace("http://127.0.0.1:8080", url)
    assert asked != found
    return asked


def options(command: str, among: str = "") -> list[str]:
    """The options that the page gives to a command, ``among`` which is this, without those that name files."""
    given = re.findall(rf"^{command} generate ((?:.*\\\n)*.*)$", _PAGE, re.MULTILINE)
    (found,) = (each for each in given if among in each)
    words = found.replace("\\\n", " ").split()
    files = {place for place, word in enumerate(words) if word in ("-i", "-o", "--path", "--output-path")}
    return [word for place, word in enumerate(words) if place not in files and place - 1 not in files]


def what_they_say(url: str) -> str:
    """Drill and tap of the hole of the page, as the service answers it."""
    hole = {"thread": "M8", "hole": {"type": "blind", "full_thread_depth": 16}, "material": "4140"}
    reply: Any = requests.post(f"{url}/v1/hole-specs", json=hole, timeout=10).json()
    return f"{reply['drill']['recommended']['label']} {reply['headline']['tap']}"
