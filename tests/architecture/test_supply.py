"""What is installed is what was locked: by version and hash, also the tools that build it."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent.parent
LOCKS = {path.stem: path.read_text("utf-8") for path in (ROOT / "docker").glob("*.lock")}
PINNED = {name: dict(re.findall(r"^([a-z0-9_.-]+)==([^ \\]+)", text, re.MULTILINE)) for name, text in LOCKS.items()}


@pytest.mark.parametrize("name", LOCKS)
def test_every_package_has_a_version_and_hashes(name):
    packages = re.split(r"^(?=[a-z])", LOCKS[name], flags=re.MULTILINE)[1:]
    assert packages
    assert [
        text for text in packages if not re.match(r"[a-z0-9_.-]+==\S+ \\\n +--hash=sha256:[0-9a-f]{64}", text)
    ] == []


def test_locks_agree():
    for name, pinned in PINNED.items():
        for other in PINNED.values():
            assert {(package, other[package]) for package in pinned.keys() & other.keys()} <= set(pinned.items()), name


def wanted(*tables: list[str]) -> set[str]:
    """Names of packages in lists of requirements."""
    return {re.split(r"[^A-Za-z0-9_.-]", one)[0].lower() for table in tables for one in table}


def test_everything_that_is_asked_for_is_locked():
    service = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    client = tomllib.loads((ROOT / "client" / "pyproject.toml").read_text("utf-8"))
    assert wanted(service["build-system"]["requires"], client["build-system"]["requires"]) <= PINNED["build"].keys()
    printing = service["project"]["optional-dependencies"]["print"]
    assert wanted(service["project"]["dependencies"], printing) <= PINNED["requirements"].keys()
    extras = printing, *client["project"]["optional-dependencies"].values()
    assert (
        wanted(service["project"]["dependencies"], client["project"]["dependencies"], *extras) <= PINNED["run"].keys()
    )


@pytest.mark.parametrize("path", ["docker/Dockerfile", "service/environment.sh"])
def test_nothing_is_installed_without_a_lock(path):
    text = (ROOT / path).read_text("utf-8").replace("\\\n", " ")
    commands = re.findall(r"(?:pip (?:install|wheel)|install_in) [^&|\n]*", text)
    taking = [command for command in commands if '"${@:2}"' not in command and "{ #" not in command]
    assert len(taking) >= 3
    assert [one for one in taking if "--require-hashes" not in one and "--no-deps" not in one] == []


def test_an_image_can_be_given_by_digest():
    text = (ROOT / "docker" / "Dockerfile").read_text("utf-8")
    assert set(re.findall(r"^FROM (\S+)", text, re.MULTILINE)) == {"${PYTHON_IMAGE}"}
    compose = (ROOT / "docker" / "compose.yaml").read_text("utf-8")
    assert "${PYTHON_IMAGE:-" in compose
    assert "${NGINX_IMAGE:-" in compose
